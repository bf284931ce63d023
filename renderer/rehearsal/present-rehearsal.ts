/** The rehearsal that was being worked on when its screen was left, or its page: throws and reports come on the Desk, and the plan has to be there after. */
import type { ConsoleStore } from '../console/console-store.ts';
import { AT_WORK, type AtWork, atWork, isOf } from './at-work.ts';
import type { KeptRehearsal } from './kept-rehearsal.ts';
import { type Autosave, autosave, findWritten } from './written-down.ts';

export interface PresentRehearsal {
  readonly rehearsal: KeptRehearsal;
  /** The name under which it was kept; null where it was not. */
  readonly keptAs: string | null;
  /** The evening that went on when it was begun. */
  readonly evening: string | null;
  /** When it was changed last, RFC 3339. */
  readonly at: string;
}

interface Remembered {
  present: PresentRehearsal | null;
  readonly saves: Autosave<AtWork>;
  /** What was looked for, and what came of it. */
  found: { readonly of: string | null; readonly problem: Promise<string | null> } | null;
}

/** One for each console; what is written down stays with the host. */
const remembered = new WeakMap<ConsoleStore, Remembered>();

function rememberedBy(store: ConsoleStore): Remembered {
  const known = remembered.get(store);
  if (known !== undefined) return known;
  const saves = autosave<AtWork>(store.connection, AT_WORK);
  const fresh: Remembered = { present: null, saves, found: null };
  remembered.set(store, fresh);
  // What was changed in the last moment before a page goes is not left out.
  window.addEventListener('pagehide', saves.flush);
  return fresh;
}

export const presentRehearsal = (store: ConsoleStore): PresentRehearsal | null => rememberedBy(store).present;

/** The one that is written down by itself here; null while none is. */
export const ownAtWork = (store: ConsoleStore): string | null => rememberedBy(store).saves.own();

/** Leaves what is at work as it is written: what comes now is another one. */
export const leaveAtWork = (store: ConsoleStore): void => rememberedBy(store).saves.letGo();

/** How what is at work is written down by itself. */
export const savesOf = (store: ConsoleStore): Autosave<AtWork> => rememberedBy(store).saves;

/**
 * Looks, once for each evening, whether something was being worked on in it. What this page has of another evening is left, as it is written.
 *
 * @param evening the one that goes on, or ended last; null where there was none
 * @returns why what was there cannot be taken up; null where nothing speaks against it
 */
export function recallRehearsal(store: ConsoleStore, evening: string | null): Promise<string | null> {
  const own = rememberedBy(store);
  if (own.present !== null && !isOf(own.present, evening)) {
    own.saves.letGo();
    own.present = null;
  }
  if (own.found?.of === evening) return own.found.problem;
  const problem = findWritten(store.connection, AT_WORK, atWork, (work) => isOf(work, evening)).then(
    ({ left, damaged }) => {
      if (left === null || own.present !== null) return damaged;
      const { rehearsal, keptAs } = left.work;
      own.present = { rehearsal, keptAs, evening: left.work.evening, at: left.at };
      own.saves.takeUp(left.id, left.work);
      return damaged;
    },
  );
  own.found = { of: evening, problem };
  return problem;
}

/** @param present null where there is nothing to come back to */
export function rememberRehearsal(store: ConsoleStore, present: Omit<PresentRehearsal, 'at'> | null): void {
  const own = rememberedBy(store);
  const before = own.present;
  if (present === null) own.present = null;
  else {
    const isSame = before !== null && JSON.stringify(before.rehearsal) === JSON.stringify(present.rehearsal);
    own.present = { ...present, at: isSame ? before.at : new Date().toISOString() };
  }
  own.saves.put(present === null ? null : asWork(present));
}

const asWork = ({ evening, keptAs, rehearsal }: Omit<PresentRehearsal, 'at'>): AtWork => ({
  format: 'cabward-rehearsal-at-work/1',
  evening,
  keptAs,
  rehearsal,
});
