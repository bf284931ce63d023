/** The phase checks that hold for a railroad now: those of the evening, if one goes on, else those kept for the next. */
import { useMemo } from 'react';
import { useConsole } from '../console/use-console.tsx';
import { type DatedCheck, dated } from '../power-room/dated-check.ts';
import { useStandingChecks } from '../power-room/use-standing-checks.ts';

/**
 * @param id the railroad's id in the library
 * @returns the same list as long as no check is added or lapses; null until it is read
 */
export function useChecksOf(id: string): readonly DatedCheck[] | null {
  const evening = useConsole((state) => state.evening);
  const going = evening !== null && evening.state.phase !== 'ended' ? evening : null;
  const standing = useStandingChecks(going === null ? id : null).checks;
  const [measured, openedAt] = [going?.state.checks, going?.openedAt];
  return useMemo(
    () =>
      measured === undefined || openedAt === undefined ? standing : dated(measured, Date.parse(openedAt)),
    [measured, openedAt, standing],
  );
}
