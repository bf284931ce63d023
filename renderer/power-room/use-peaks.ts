/** The worst moments of the evening that goes on: read once from the log, then kept up event by event. */
import { useEffect, useRef } from 'react';
import { type Peak, peakLoads, withMoment } from '../../shared-model/power/peak-load.ts';
import type { Railroad } from '../../shared-model/railroad/railroad.ts';
import type { SessionEvent } from '../../shared-model/session/event.ts';
import { drawsOf } from '../../shared-model/session/facts/draws.ts';
import { evolve } from '../../shared-model/session/fold.ts';
import type { SessionState } from '../../shared-model/session/state.ts';
import type { Seconds } from '../../shared-model/units.ts';
import { useConsole, useConsoleStore } from '../console/use-console.tsx';
import { useKnownOf } from '../console/use-known-of.ts';
import { MOST_READ, throughEntries } from '../logbook/through-entries.ts';

interface Followed {
  readonly evening: string;
  readonly state: SessionState;
  readonly peaks: readonly Peak[];
  /** The second that was looked at first. */
  readonly since: Seconds;
}

/** The peaks in the order of `loadsOf`, in seconds since the session was opened. */
export type Peaks = Pick<Followed, 'peaks' | 'since'>;

/** Folds events, and takes the moment after each into account; null where one is missing in between. */
function follow(railroad: Railroad, from: Followed, events: readonly SessionEvent[]): Followed | null {
  let { state, peaks } = from;
  for (const event of events) {
    if (event.entry <= state.entries) continue;
    if (event.entry !== state.entries + 1) return null;
    state = evolve(state, event);
    peaks = withMoment(railroad, peaks, { at: event.at, draws: drawsOf(railroad, state, 'now') });
  }
  return { ...from, state, peaks };
}

/** Before anything was followed: what draws in a state. */
const begun = (railroad: Railroad, evening: string, state: SessionState): Followed => ({
  evening,
  state,
  peaks: withMoment(railroad, peakLoads(railroad, []), {
    at: state.at,
    draws: drawsOf(railroad, state, 'now'),
  }),
  since: state.at,
});

/** @returns null while they are being read, and without an evening */
export function usePeaks(): Peaks | null {
  const { connection } = useConsoleStore();
  const evening = useConsole((state) => state.evening);
  const followed = useRef<Followed | null>(null);
  const going = evening !== null && evening.state.phase !== 'ended';
  const [peaks, setPeaks] = useKnownOf<Peaks>(going ? evening.id : '');
  useEffect(() => {
    if (!going) return;
    const { id, railroad, recent, state } = evening;
    const known = followed.current?.evening === id ? followed.current : null;
    const next = known === null ? null : follow(railroad, known, recent);
    if (next !== null) {
      followed.current = next;
      setPeaks(next);
      return;
    }
    let wanted = true;
    let now: Followed | null = null;
    const first = Math.max(1, state.entries - MOST_READ + 1);
    void throughEntries(connection, id, first, (before, events) => {
      now = follow(railroad, now ?? begun(railroad, id, before), events);
      return wanted;
    }).then((answer) => {
      if (!wanted || answer === null || !answer.ok) return;
      followed.current = now;
      if (now !== null) setPeaks(now);
    });
    return () => {
      wanted = false;
    };
  }, [connection, evening, going, setPeaks]);
  return peaks;
}
