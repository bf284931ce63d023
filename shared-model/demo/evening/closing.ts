/** The last quarter of an hour: everybody once more round, then the closing list. */
import { goRound, order, runOut } from './crew.ts';
import { INNER_EDGES, OUTER_EDGES } from './rounds.ts';
import { type Part, type Stage, say, sayAll } from './stage.ts';

/** No. 41 comes out of the siding with cab 2, which is alive again. */
export function* takeCab(stage: Stage): Part {
  yield* say(stage, { do: 'change-cab', train: 't41', cab: '2' });
  yield* say(stage, { do: 'turn-selector', selector: 'K10', position: '2' });
  yield* order(stage, 't41', 'e11');
  yield* runOut(stage, 't41', 20);
}

/** The last rounds: from `until` on no train asks for a further block. */
export function lastRounds(stage: Stage, pace: number, until: number): readonly Part[] {
  const late = (): boolean => stage.at >= until;
  return [
    goRound(stage, { train: 't18', edges: OUTER_EDGES, pace: pace + 26, ends: late }),
    goRound(stage, { train: 't41', edges: OUTER_EDGES, pace: pace + 30, ends: late }),
    goRound(stage, { train: 't12', edges: INNER_EDGES, pace: pace + 28, ends: late }),
  ];
}

/** Handles to zero, every knob off, and good night. */
export function* closing(stage: Stage): Part {
  yield* sayAll(
    stage,
    ['1', '2', '3', '4'].map((cab) => ({ do: 'handle-at-zero', cab })),
  );
  yield* say(stage, { do: 'apply-setting', setting: 'dark' });
  yield* say(stage, { do: 'end-session' });
}
