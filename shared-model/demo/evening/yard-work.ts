/** The yard while the others go round: the late guest, cars set out and picked up inside limits, a slip of the keys. */
import { order, runOut, throwAll } from './crew.ts';
import { crewOf, type People } from './opening.ts';
import { grant, handsFree, type Part, refusedThen, type Stage, say, speak, type Words } from './stage.ts';

/** The back track, beside the blocks that the switcher stands in. */
const limits: Words = { do: 'grant-limits', train: 't3', blocks: ['B14'] };

export function* yardWork(stage: Stage, people: People): Part {
  yield 60;
  yield* crewOf(stage, '4', people.guest);
  const toLead = { do: 'request-move', train: 't3', to: 'B11' } as const;
  yield* refusedThen(stage, toLead, 5, { ...toLead, overhang: true });
  yield* throwAll(stage, 't3');
  yield* runOut(stage, 't3', 12);
  yield 30;

  // Somebody tried the toggle of the back hold and left it on: No. 24 stands behind it.
  yield* say(stage, { do: 'set-toggle', toggle: 'H1', on: true }, 40);
  yield* refusedThen(stage, limits, 7, { do: 'set-toggle', toggle: 'H1', on: false });
  yield* grant(stage, limits, 0);
  yield* throwAll(stage, 't3');
  yield 30;
  yield* say(stage, { do: 'set-out', train: 't3', cut: 'cut1', length: 400, edge: 'e47', toward: 'g17' });
  yield 120;
  yield* say(stage, { do: 'pick-up', train: 't3', cut: 'cut1' });
  yield 60;
  yield* say(stage, { do: 'release-limits', train: 't3', edge: 'e46', toward: 'g16' });
  yield* say(stage, { do: 'turn-selector', selector: 'K12', position: 'off' }, 60, 4);

  yield* say(stage, { do: 'add-train', train: 't91', name: 'No. 91', length: 800, amps: 1.4 }, 8);
  yield* say(stage, { do: 'place-train', train: 't91', edge: 'e49', toward: 'g21', cab: '4' }, 8);
  yield* order(stage, 't91', 'B15');
  yield* runOut(stage, 't91', 16);
  yield 60;

  // Typed for the wrong train, and taken back at once.
  yield* handsFree(stage, 8);
  const { entry } = speak(stage, { do: 'train-entered', train: 't3', block: 'B9' }, 6);
  speak(stage, { do: 'retract', entry, why: 'typed by mistake' }, 2);
  yield 60;

  yield* say(stage, { do: 'turn-selector', selector: 'K15', position: 'off' }, 4, 4);
}
