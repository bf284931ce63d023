/** The yard while the others go round: the late guest, cars set out and picked up inside limits, a slip of the keys. */
import { order, readBack, runOut, throwAll } from './crew.ts';
import type { People } from './opening.ts';
import { type Part, type Stage, say, sayAll, type Words } from './stage.ts';

const limits = (...blocks: readonly string[]): Words => ({ do: 'grant-limits', train: 't3', blocks });

const YARD = ['B11', 'B12', 'B14'] as const;

/** A spell of work inside the limits, taken and read back; then where the switcher stands. */
function* work(stage: Stage, blocks: readonly string[], lines: readonly Words[]): Part {
  yield* say(stage, limits(...blocks));
  yield* readBack(stage, 't3');
  yield* throwAll(stage, 't3');
  yield* sayAll(stage, lines, 20);
}

export function* yardWork(stage: Stage, people: People): Part {
  yield 60;
  yield* say(stage, { do: 'request-move', train: 't3', to: 'B11' });
  yield* say(stage, { do: 'assign-cab', cab: '4', person: people.guest });
  yield* order(stage, 't3', 'B11');
  yield* order(stage, 't3', 'B11', { overhang: true });
  yield* runOut(stage, 't3', 12);
  yield 30;

  // Somebody tried the toggle of the back hold and left it on: No. 24 stands behind it.
  yield* say(stage, { do: 'set-toggle', toggle: 'H1', on: true }, 40);
  yield* say(stage, limits(...YARD));
  yield* say(stage, { do: 'set-toggle', toggle: 'H1', on: false });
  yield* work(stage, YARD, [
    { do: 'set-out', train: 't3', cut: 'c1', length: 400, edge: 'e47', toward: 'g18' },
    { do: 'release-limits', train: 't3', edge: 'e37', toward: 'g15' },
  ]);
  yield 60;
  yield* work(
    stage,
    ['B11', 'B12'],
    [
      { do: 'pick-up', train: 't3', cut: 'c1' },
      { do: 'release-limits', train: 't3', edge: 'e46', toward: 'g16' },
    ],
  );
  yield* say(stage, { do: 'turn-selector', selector: 'K12', position: 'off' }, 60);

  yield* say(stage, { do: 'note', text: `${people.guest} brings an engine.` }, 10);
  yield* say(stage, { do: 'add-train', train: 't91', name: 'No. 91', length: 800, amps: 1.4 }, 8);
  yield* say(stage, { do: 'place-train', train: 't91', edge: 'e49', toward: 'g21', cab: '4' }, 8);
  yield* order(stage, 't91', 'B15');
  yield* runOut(stage, 't91', 16);
  yield 60;

  // Typed for the wrong train, and taken back at once.
  const { entry } = yield* say(stage, { do: 'train-entered', train: 't24', block: 'B16' }, 2);
  yield* say(stage, { do: 'retract', entry, why: 'wrong train' });
  yield 60;

  yield* say(stage, { do: 'turn-selector', selector: 'K15', position: 'off' });
}
