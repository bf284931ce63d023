/** The rehearsal by hand that was being played when its screen was left. */
import type { AuthorityNames } from '../../shared-model/planning/rehearsal/hand-orders.ts';
import type { Evening } from '../../shared-model/session/evening.ts';
import type { ConsoleStore } from '../console/console-store.ts';

export interface PlayedFork {
  /** Of the evening that it was forked from. */
  readonly of: string;
  readonly evening: Evening;
  /** Entries of orders that were made real, or left out. */
  readonly done: ReadonlySet<number>;
  readonly names: AuthorityNames;
}

/** One for each console; it goes with the page. */
const present = new WeakMap<ConsoleStore, PlayedFork>();

/** @param evening the one that goes on; a fork of another is not come back to */
export function presentFork(store: ConsoleStore, evening: string): PlayedFork | null {
  const found = present.get(store);
  return found?.of === evening ? found : null;
}

export const rememberFork = (store: ConsoleStore, fork: PlayedFork): void => void present.set(store, fork);
