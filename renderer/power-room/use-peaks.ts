/** The worst moments of the evening that goes on: read once from the log, then kept up event by event. */
import { useEffect, useRef, useState } from 'react';
import { type Peak, peakLoads, withMoment } from '../../shared-model/power/peak-load.ts';
import type { Railroad } from '../../shared-model/railroad/railroad.ts';
import type { SessionEvent } from '../../shared-model/session/event.ts';
import { drawsOf } from '../../shared-model/session/facts/draws.ts';
import { evolve } from '../../shared-model/session/fold.ts';
import type { SessionState } from '../../shared-model/session/state.ts';
import { useConsole, useConsoleStore } from '../console/use-console.tsx';
import { readRecord } from '../logbook/use-record.ts';

interface Followed {
  readonly evening: string;
  readonly state: SessionState;
  readonly peaks: readonly Peak[];
}

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

/** @returns the peaks in the order of `loadsOf`, in seconds since the session was opened; null while they are being read, and without an evening */
export function usePeaks(): readonly Peak[] | null {
  const { connection } = useConsoleStore();
  const evening = useConsole((state) => state.evening);
  const followed = useRef<Followed | null>(null);
  const [peaks, setPeaks] = useState<readonly Peak[] | null>(null);
  useEffect(() => {
    if (evening === null || evening.state.phase === 'ended') {
      setPeaks(null);
      return;
    }
    const { id, railroad, recent } = evening;
    const known = followed.current?.evening === id ? followed.current : null;
    const next = known === null ? null : follow(railroad, known, recent);
    if (next !== null) {
      followed.current = next;
      setPeaks(next.peaks);
      return;
    }
    let wanted = true;
    void readRecord(connection, id, () => wanted).then((answer) => {
      if (!wanted || answer === null || !answer.ok) return;
      const { initial, events } = answer.value.replay;
      const first = { evening: id, state: initial, peaks: peakLoads(railroad, []) };
      followed.current = follow(railroad, first, events);
      setPeaks(followed.current?.peaks ?? null);
    });
    return () => {
      wanted = false;
    };
  }, [connection, evening]);
  return peaks;
}
