/** The rehearsal by hand that was being played when its screen was left, or its page: what was sent in it is written down, and played again. */
import { authorityId } from '../../shared-model/ids.ts';
import { lookAhead } from '../../shared-model/planning/look-ahead.ts';
import type { AuthorityNames } from '../../shared-model/planning/rehearsal/hand-orders.ts';
import { type BatchItem, batchItem } from '../../shared-model/session/batch.ts';
import { type Evening, problemWith, takeBatch } from '../../shared-model/session/evening.ts';
import { z } from '../../shared-model/zod.ts';
import type { ConsoleStore } from '../console/console-store.ts';
import type { FollowedEvening } from '../console/followed-evening.ts';
import { type Autosave, autosave, findWritten } from './written-down.ts';

/** What was sent in a fork together, and at which second of the session. */
interface Sending {
  readonly at: number;
  readonly items: readonly BatchItem[];
}

export interface PlayedFork {
  /** Of the evening that it was forked from. */
  readonly of: string;
  /** The entries that the evening had then. */
  readonly from: number;
  readonly evening: Evening;
  readonly sent: readonly Sending[];
  /** Entries of orders that were made real, or left out. */
  readonly done: ReadonlySet<number>;
  readonly names: AuthorityNames;
}

const BY_HAND = 'rehearsal-by-hand';

const entry = z.number().int().nonnegative();
const writtenFork = z.strictObject({
  format: z.literal('cabward-by-hand/1'),
  evening: z.string(),
  /** The entries that the evening had when it was forked. */
  from: entry,
  sent: z.array(z.strictObject({ at: z.number(), items: z.array(batchItem) })),
  done: z.array(entry),
  /** Authorities of the fork with what they are called in the evening. */
  names: z.array(z.tuple([authorityId, authorityId])),
});
type WrittenFork = z.infer<typeof writtenFork>;

/** A fork of the evening as it stands. */
export const forkOf = ({ id, railroad, state }: FollowedEvening): PlayedFork => ({
  of: id,
  from: state.entries,
  evening: { railroad, state, initial: state, events: [], lookAhead },
  sent: [],
  done: new Set(),
  names: new Map(),
});

/**
 * A fork with something sent in it.
 *
 * @returns what is wrong with it, in words, where a name in it is not known there
 */
export function playedOn(
  fork: PlayedFork,
  { at, items }: Sending,
): { readonly fork: PlayedFork; readonly taken: ReturnType<typeof takeBatch> } | string {
  const before = fork.evening;
  for (const { input } of items) {
    const problem = problemWith(before.railroad, before.state, input);
    if (problem !== null) return problem;
  }
  const taken = takeBatch(before, at, items);
  return { fork: { ...fork, evening: taken.evening, sent: [...fork.sent, { at, items }] }, taken };
}

interface Remembered {
  fork: PlayedFork | null;
  readonly saves: Autosave<WrittenFork>;
  found: { readonly of: string; readonly recalled: Promise<Recalled> } | null;
}

/** How a fork was found when its page began. */
export interface Recalled {
  /** When it was played on last, RFC 3339; null where there is none to come back to. */
  readonly at: string | null;
  readonly problem: string | null;
}

/** One for each console. */
const remembered = new WeakMap<ConsoleStore, Remembered>();

function rememberedBy(store: ConsoleStore): Remembered {
  const known = remembered.get(store);
  if (known !== undefined) return known;
  const saves = autosave<WrittenFork>(store.connection, BY_HAND);
  const fresh: Remembered = { fork: null, saves, found: null };
  remembered.set(store, fresh);
  window.addEventListener('pagehide', saves.flush);
  return fresh;
}

/** How the fork that is played is written down by itself. */
export const forkSavesOf = (store: ConsoleStore): Autosave<WrittenFork> => rememberedBy(store).saves;

/** @param evening the one that goes on; a fork of another is not come back to */
export function presentFork(store: ConsoleStore, evening: string): PlayedFork | null {
  const { fork } = rememberedBy(store);
  return fork?.of === evening ? fork : null;
}

export function rememberFork(store: ConsoleStore, fork: PlayedFork): void {
  const own = rememberedBy(store);
  if (own.fork !== null && own.fork.of !== fork.of) own.saves.letGo();
  own.fork = fork;
  // It is found as it was once: from then on it is the one that is played.
  own.found = { of: fork.of, recalled: Promise.resolve({ at: null, problem: null }) };
  own.saves.put(
    fork.sent.length === 0
      ? null
      : {
          format: 'cabward-by-hand/1',
          evening: fork.of,
          from: fork.from,
          sent: fork.sent.map(({ at, items }) => ({ at, items: [...items] })),
          done: [...fork.done],
          names: [...fork.names],
        },
  );
}

/** Plays a fork again from how the evening stood then. @returns why it cannot be, in words */
async function playedAgain(
  store: ConsoleStore,
  live: FollowedEvening,
  { evening: of, from, sent, done, names }: WrittenFork,
): Promise<PlayedFork | string> {
  const then = await store.connection.call('evenings.stateAt', { id: of, entry: from });
  if (!then.ok) return then.problem.says;
  const { state } = then.value;
  let fork = forkOf({ ...live, state });
  for (const sending of sent) {
    const next = playedOn(fork, sending);
    if (typeof next === 'string') return next;
    fork = next.fork;
  }
  return { ...fork, done: new Set(done), names: new Map(names) };
}

/** Looks, once for each evening, whether a fork of it was being played, and plays it again up to where it was. */
export function recallFork(store: ConsoleStore, live: FollowedEvening): Promise<Recalled> {
  const own = rememberedBy(store);
  if (own.found?.of === live.id) return own.found.recalled;
  const recall = async (): Promise<Recalled> => {
    const { left, damaged } = await findWritten(
      store.connection,
      BY_HAND,
      writtenFork,
      ({ evening }) => evening === live.id,
    );
    if (left === null || presentFork(store, live.id) !== null) return { at: null, problem: damaged };
    const again = await playedAgain(store, live, left.work);
    if (typeof again === 'string')
      return { at: null, problem: `What was rehearsed last cannot be played again: ${again}` };
    own.fork = again;
    own.saves.takeUp(left.id, left.work);
    return { at: left.at, problem: damaged };
  };
  own.found = { of: live.id, recalled: recall() };
  return own.found.recalled;
}
