/** The two rounds of the demo railroad, and how three trains go round until the break. */
import { goRound, reach } from './crew.ts';
import type { Part, Stage } from './stage.ts';

/** Edges at whose far ends a train on the round stops, one a block, in the order of travel. */
export const OUTER_EDGES = ['e2', 'e5', 'e6', 'e9', 'e11'] as const;
export const INNER_EDGES = ['e13', 'e15', 'e17', 'e19'] as const;

/** Seconds for a block: two freights follow each other at a walk on the outer oval, a passenger train has the inner one to itself. */
const FREIGHT = 66;
/** The freights hurry when it is time for the break. */
const HOMEWARD = 20;
export const PASSENGER = 6;

/**
 * Three trains go round. From `until` on No. 18 stops in the bay and No. 12 at the creek; No. 7 stops in the east throat, but not
 * before No. 18 has its last block, since it would be in its way there.
 */
export function threeTrains(stage: Stage, pace: number, until: number): readonly Part[] {
  const late = (): boolean => stage.at >= until;
  const freight = (): number => (late() ? HOMEWARD : pace + FREIGHT);
  const eighteenIsHome = (): boolean => late() && reach(stage, 't18').last === 'B1';
  const bothAreHome = (): boolean => eighteenIsHome() && reach(stage, 't7').last === 'B4';
  return [
    goRound(stage, {
      train: 't7',
      edges: OUTER_EDGES,
      pace: freight,
      ends: (last) => eighteenIsHome() && last === 'B4',
    }),
    goRound(stage, {
      train: 't18',
      edges: OUTER_EDGES,
      pace: freight,
      ends: (last) => late() && last === 'B1',
    }),
    goRound(stage, {
      train: 't12',
      edges: INNER_EDGES,
      pace: () => pace + PASSENGER,
      ends: (last) => bothAreHome() && last === 'B6',
    }),
  ];
}

/** Something happens elsewhere; meanwhile one train has its oval to itself, and stops in `last` when that is over. */
export function roundsBeside(
  stage: Stage,
  other: Part,
  { train, pace, last: home }: { readonly train: string; readonly pace: number; readonly last: string },
): readonly Part[] {
  let over = false;
  function* untilOver(): Part {
    yield* other;
    over = true;
  }
  const edges = train === 't12' ? INNER_EDGES : OUTER_EDGES;
  return [
    untilOver(),
    goRound(stage, { train, edges, pace: () => pace + PASSENGER, ends: (last) => over && last === home }),
  ];
}
