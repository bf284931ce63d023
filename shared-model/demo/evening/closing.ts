/** The last quarter of an hour: everybody once more round, then the closing list. */
import { goRound, order, runOut } from './crew.ts';
import { INNER_EDGES, OUTER_EDGES, PASSENGER } from './rounds.ts';
import { handsFree, type Part, type Stage, say, sayAll } from './stage.ts';

/** No. 7 has gone home: No. 41 comes out of the siding at last, and No. 18 goes into it. */
export function* meetAtTheDepot(stage: Stage): Part {
  yield* order(stage, 't41', 'e11', {}, 1);
  yield* runOut(stage, 't41', 16);
  yield* order(stage, 't18', 'B10', {}, 6);
  yield* runOut(stage, 't18', 16);
}

/** The last rounds, one train on each oval: from `until` on none asks for a further block. */
export function lastRounds(stage: Stage, pace: number, until: number): readonly Part[] {
  const late = (): boolean => stage.at >= until;
  return [
    goRound(stage, { train: 't41', edges: OUTER_EDGES, pace: () => pace + PASSENGER, ends: late }),
    goRound(stage, { train: 't12', edges: INNER_EDGES, pace: () => pace + PASSENGER, ends: late }),
  ];
}

/** Handles to zero, every knob off, and good night. */
export function* closing(stage: Stage): Part {
  yield* handsFree(stage, 3);
  yield* sayAll(
    stage,
    ['1', '2', '3', '4'].map((cab) => ({ do: 'handle-at-zero', cab })),
  );
  yield* say(stage, { do: 'apply-setting', setting: 'dark' });
  yield* say(stage, { do: 'end-session' });
}
