/** How far the trains of a kept plan have come in the live evening: read from its log once, then followed. */
import { useEffect, useRef, useState } from 'react';
import {
  atTheBeginning,
  goneOn,
  type HowFar,
  howFarAfter,
} from '../../shared-model/planning/carry-out/how-far.ts';
import type { KeptPlan } from '../../shared-model/planning/carry-out/keep-order.ts';
import type { FollowedEvening } from '../console/followed-evening.ts';
import { useConsoleStore } from '../console/use-console.tsx';
import { throughEntries } from '../logbook/through-entries.ts';
import type { MadeReal } from './kept-rehearsal.ts';

/**
 * @param made where the plan was made real; null before: then what happens from now on counts
 * @param live the evening that goes on
 */
export function useHowFar(kept: KeptPlan, made: MadeReal | null, live: FollowedEvening | null): HowFar {
  const { connection } = useConsoleStore();
  const [far, setFar] = useState(() => atTheBeginning(kept));
  const now = useRef(live);
  now.current = live;
  const evening = made?.evening === live?.id ? made?.evening : undefined;
  const entry = made?.entry ?? 0;

  useEffect(() => {
    const state = now.current?.state;
    const begun = atTheBeginning(kept);
    setFar(state === undefined ? begun : goneOn(kept, begun, state));
    if (evening === undefined) return;
    let wanted = true;
    let read = begun;
    void throughEntries(connection, evening, Math.max(1, entry), (before, events) => {
      read = howFarAfter(kept, read, before, events, entry);
      return wanted;
    }).then((answer) => {
      if (!wanted || answer?.ok !== true) return;
      setFar(now.current === null ? read : goneOn(kept, read, now.current.state));
    });
    return () => {
      wanted = false;
    };
  }, [connection, kept, evening, entry]);
  const state = live?.state;
  useEffect(() => {
    if (state !== undefined) setFar((before) => goneOn(kept, before, state));
  }, [kept, state]);
  return far;
}
