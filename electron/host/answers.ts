/** Answers of the host, as data: what went well, and what did not and why. */
import type { Problem } from '../../shared-model/wire/contract.ts';

export interface Good<Value> {
  readonly ok: true;
  readonly value: Value;
}
export interface Bad {
  readonly ok: false;
  readonly problem: Problem;
}

export function good<Value>(value: Value): Good<Value> {
  return { ok: true, value };
}

export function bad(kind: Problem['kind'], says: string, path?: string): Bad {
  return { ok: false, problem: path === undefined ? { kind, says } : { kind, says, path } };
}
