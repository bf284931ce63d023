/** The rehearsal that was being worked on when its screen was left: throws and reports come on the Desk, and the plan has to be there after. */
import type { ConsoleStore } from '../console/console-store.ts';
import type { KeptRehearsal } from './kept-rehearsal.ts';

export interface PresentRehearsal {
  readonly rehearsal: KeptRehearsal;
  /** The name under which it was kept; null where it was not. */
  readonly keptAs: string | null;
}

/** One for each console; it goes with the page, what is kept stays with the host. */
const present = new WeakMap<ConsoleStore, PresentRehearsal>();

export const presentRehearsal = (store: ConsoleStore): PresentRehearsal | null => present.get(store) ?? null;

/** @param rehearsal null where there is nothing to come back to */
export function rememberRehearsal(store: ConsoleStore, rehearsal: PresentRehearsal | null): void {
  if (rehearsal === null) present.delete(store);
  else present.set(store, rehearsal);
}
