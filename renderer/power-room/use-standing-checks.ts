/** The phase checks that hold on a railroad while no evening goes on, and what is added to them then. */
import { useCallback, useEffect } from 'react';
import {
  CHECK_KIND,
  type KeptCheck,
  type KeptReplugging,
  REPLUGGED_KIND,
} from '../../shared-model/session/kept-checks.ts';
import { useConsoleStore } from '../console/use-console.tsx';
import { useKnownOf } from '../console/use-known-of.ts';
import { type DatedCheck, dated, sameChecks } from './dated-check.ts';

interface StandingChecks {
  /** Null until they are read, and where there is no railroad. */
  readonly checks: readonly DatedCheck[] | null;
  /** Each keeps one more; the answer is a sentence when it could not be kept. */
  readonly keepCheck: (check: KeptCheck) => Promise<string | null>;
  readonly keepReplugging: (replugging: KeptReplugging) => Promise<string | null>;
}

/** @param railroad its id in the library; null for none, and while an evening goes on */
export function useStandingChecks(railroad: string | null): StandingChecks {
  const { connection } = useConsoleStore();
  const [checks, setChecks] = useKnownOf(railroad ?? '', sameChecks);
  const read = useCallback(async (): Promise<readonly DatedCheck[] | null> => {
    if (railroad === null) return null;
    const answer = await connection.call('phase.checks', { railroad });
    return answer.ok ? dated(answer.value, Date.now()) : [];
  }, [connection, railroad]);
  useEffect(() => {
    let gone = false;
    const show = () =>
      void read().then((found) => {
        if (!gone && found !== null) setChecks(found);
      });
    show();
    // Another supply under the same name was not measured: the host knows when it reads the railroad again.
    const stop = connection.on('railroads.changed', show);
    return () => {
      gone = true;
      stop();
    };
  }, [connection, read, setChecks]);
  const keep = async (kind: string, value: unknown): Promise<string | null> => {
    const id = new Date().toISOString();
    const answer = await connection.call('keep.write', { kind, id, value });
    const found = await read();
    if (found !== null) setChecks(found);
    return answer.ok ? null : answer.problem.says;
  };
  return {
    checks,
    keepCheck: (check) => keep(CHECK_KIND, check),
    keepReplugging: (replugging) => keep(REPLUGGED_KIND, replugging),
  };
}
