/** The two rounds of the demo railroad, and how three trains go round until the break. */
import { goRound, reach } from './crew.ts';
import type { Part, Stage } from './stage.ts';

/** Edges at whose far ends a train on the round stops, one a block, in the order of travel. */
export const OUTER_EDGES = ['e2', 'e5', 'e6', 'e9', 'e11'] as const;
export const INNER_EDGES = ['e13', 'e15', 'e17', 'e19'] as const;

/**
 * Three trains go round. From `until` on No. 18 stops in the bay and No. 12 at the creek; No. 7 stops in the east throat, but not
 * before No. 18 has its last block, since it would be in its way there.
 */
export function threeTrains(stage: Stage, pace: number, until: number): readonly Part[] {
  const late = (): boolean => stage.at >= until;
  const eighteenIsHome = (): boolean => late() && reach(stage, 't18').last === 'B1';
  return [
    goRound(stage, {
      train: 't7',
      edges: OUTER_EDGES,
      pace: pace + 26,
      ends: (last) => eighteenIsHome() && last === 'B4',
    }),
    goRound(stage, {
      train: 't18',
      edges: OUTER_EDGES,
      pace: pace + 28,
      ends: (last) => late() && last === 'B1',
    }),
    goRound(stage, {
      train: 't12',
      edges: INNER_EDGES,
      pace: pace + 24,
      ends: (last) => late() && last === 'B6',
    }),
  ];
}
