/** Going through evenings entry by entry in short turns: what is found sound is known from then on, and a pass that is going on serves all who ask. */
import type { EveningReader } from '../../shared-model/logbook/pass.ts';
import { GIVEN_UP, whileWanted } from './by-turns.ts';
import { throughEvening } from './log/evening-fault.ts';
import type { ReadableLog } from './log/log.ts';
import type { SessionRow } from './log/sessions.ts';

/** What is wrong with the evening, null when nothing is; or that nobody wanted to know any longer. */
type Passed = string | null | typeof GIVEN_UP;

export interface EveningPasses {
  /** Whether it was gone through since the start and is what was written. */
  isSound(row: SessionRow): boolean;
  /** What is wrong with an evening; null when nothing is. */
  faultOf(row: SessionRow): Promise<string | null>;
  /**
   * Tells readers every entry of an evening, which is checked on the way.
   *
   * @param wanted asked at each turn, with how many entries were gone through; false gives it up
   */
  tell(
    row: SessionRow,
    readers: readonly EveningReader[],
    wanted: (entries: number) => boolean,
  ): Promise<Passed>;
}

export function eveningPasses(log: ReadableLog): EveningPasses {
  /** By the head of the evening's chain, as long as the host lives. */
  const sound = new Set<string>();
  const going = new Map<string, Promise<Passed>>();

  const pass = (
    row: SessionRow,
    readers: readonly EveningReader[],
    wanted: (entries: number) => boolean,
  ): Promise<Passed> => {
    const passing = whileWanted(throughEvening(log, row, readers), wanted)
      .then((passed) => {
        if (passed === null) sound.add(row.head);
        return passed;
      })
      .finally(() => {
        if (going.get(row.head) === passing) going.delete(row.head);
      });
    going.set(row.head, passing);
    return passing;
  };

  return {
    isSound: (row) => sound.has(row.head),
    faultOf: async (row) => {
      while (!sound.has(row.head)) {
        const passed = await (going.get(row.head) ?? pass(row, [], () => true));
        if (passed !== GIVEN_UP) return passed;
      }
      return null;
    },
    tell: pass,
  };
}
