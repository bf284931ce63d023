/** What the board of a rehearsal shows beside each sheet. */
import { useMemo } from 'react';
import type { FollowedEvening } from '../console/followed-evening.ts';
import { forkFor } from './made-plan.ts';
import type { BoardShown } from './rehearsal-board.tsx';
import { isSameTrack } from './same-track.ts';
import type { Rehearsal } from './use-rehearsal.ts';
import { lockedBlocks } from './verdict.tsx';
import type { Way } from './ways.ts';
import { wrongBlocks, wrongIn } from './what-is-wrong.ts';

interface Looking {
  /** Steps of the plan that are done. */
  readonly step: number;
  /** The way that is looked at. */
  readonly way: Way | null;
  /** Orders are made real, or held against what happened: the present is looked at. */
  readonly present: boolean;
  /** Blocks of the order that is next. */
  readonly next: readonly string[];
}

/** @param live the evening that goes on */
export function useBoardShown(
  rehearsal: Rehearsal,
  live: FollowedEvening | null,
  { step, way, present, next }: Looking,
): BoardShown | null {
  const { origin, json, fork, seen } = rehearsal;
  const answer = rehearsal.safe.state;
  const locked = useMemo(() => lockedBlocks(answer), [answer]);
  const now = present && live !== null && isSameTrack(live.railroad, origin.railroad) ? live : null;
  /** While something is wrong: the trains that stand right, and where the others were to be. */
  const right = useMemo((): BoardShown | null => {
    if (fork !== null) return null;
    const { railroad, known } = origin;
    const wrong = wrongIn(railroad, json);
    if (wrong.standing === null) return null;
    const { state } = forkFor(railroad, wrong.standing, known).evening;
    return { of: 'rehearsal', railroad, state, against: wrongBlocks(railroad, json, wrong), next: [] };
  }, [origin, json, fork]);
  return useMemo((): BoardShown | null => {
    if (now !== null) return { of: 'now', railroad: now.railroad, state: now.state, against: [], next };
    const { railroad } = origin;
    if (way !== null) return { of: 'rehearsal', railroad, state: way.after, against: way.against, next: [] };
    if (right !== null) return right;
    const state = step === 0 ? fork?.evening.state : seen?.played.steps[step - 1]?.state;
    return state === undefined ? null : { of: 'rehearsal', railroad, state, against: locked, next: [] };
  }, [origin, fork, seen, locked, step, way, now, next, right]);
}
