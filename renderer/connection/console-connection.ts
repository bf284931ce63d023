/** What a screen holds in its hand: the calls and pushes of the contract, and whether anybody is at the other end. */
import {
  type Answer,
  CALLS,
  type CallName,
  type Connection,
  type Problem,
  PUSHES,
  type PushName,
  type PushOf,
  type ReplyOf,
} from '../../shared-model/wire/contract.ts';
import { bridgeAnswer } from '../../shared-model/wire/frames.ts';

/** `lost`: it was open, and is being tried again. */
export type LinkState = 'connecting' | 'open' | 'lost';

export interface ConsoleConnection extends Connection {
  readonly link: () => LinkState;
  /** @returns a function that ends the listening */
  onLink(listener: (link: LinkState) => void): () => void;
}

export const fault = (says: string): { readonly ok: false; readonly problem: Problem } => ({
  ok: false,
  problem: { kind: 'fault', says },
});

/** What went wrong with a value that is not what the contract says: the first place, and what was expected there. */
function firstIssue(error: {
  readonly issues: readonly { readonly path: readonly PropertyKey[]; readonly message: string }[];
}) {
  const issue = error.issues[0];
  return issue === undefined
    ? 'unknown'
    : `${issue.path.map(String).join('.') || 'the whole'}: ${issue.message}`;
}

/**
 * Reads the answer to a call as it came over a bridge or a socket.
 *
 * @param raw `{ ok, value }` or `{ ok, problem }`, not yet looked at
 * @returns the answer with its value parsed by the contract; a fault if it is not what the contract says
 */
export function parseAnswer<Name extends CallName>(name: Name, raw: unknown): Answer<ReplyOf<Name>> {
  const answer = bridgeAnswer.safeParse(raw);
  if (!answer.success)
    return fault(`The host answered ${name} with something unknown (${firstIssue(answer.error)}).`);
  if (!answer.data.ok) {
    const { kind, says, path } = answer.data.problem;
    return { ok: false, problem: path === undefined ? { kind, says } : { kind, says, path } };
  }
  const value = CALLS[name].reply.safeParse(answer.data.value);
  if (!value.success)
    return fault(`The host answered ${name} with something unknown (${firstIssue(value.error)}).`);
  return { ok: true, value: value.data as ReplyOf<Name> };
}

export const isPushName = (name: string): name is PushName => Object.hasOwn(PUSHES, name);

/** Reads a push; undefined if it is not what the contract says (a host of another version). */
export function parsePush<Name extends PushName>(name: Name, raw: unknown): PushOf<Name> | undefined {
  const value = PUSHES[name].safeParse(raw);
  return value.success ? (value.data as PushOf<Name>) : undefined;
}

/** A set of listeners by the name of what they listen to. */
export class Listeners<Name extends string> {
  readonly #byName = new Map<Name, Set<(value: unknown) => void>>();

  add(name: Name, listener: (value: unknown) => void): () => void {
    const set = this.#byName.get(name) ?? new Set();
    this.#byName.set(name, set.add(listener));
    return () => set.delete(listener);
  }

  tell(name: Name, value: unknown): void {
    for (const listener of this.#byName.get(name) ?? []) listener(value);
  }
}
