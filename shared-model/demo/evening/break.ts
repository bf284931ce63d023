/** The break: everything stops, everybody says where they stand, and the knobs are read again. */
import { crewOf, knobsRead, type People } from './opening.ts';
import { type Part, refusedThen, type Stage, say, sayAll, type Words } from './stage.ts';

/** Where the head of every placed train stands, as its crew says it. */
function rollCall(stage: Stage): readonly Words[] {
  return Object.entries(stage.evening.state.trains).flatMap(([id, train]) => {
    const [head] = train.trail;
    return train.placed && head !== undefined
      ? [{ do: 'train-at', train: id, edge: head.edge, toward: head.toward }]
      : [];
  });
}

/**
 * A break; after it the dispatcher takes cab 2 over as well. Before it No. 41 asks to come out of the siding: knob 1
 * is turned off, so that No. 18 would not start with it, but No. 7 stands in its way till it has gone home.
 */
export function* breakAndRollCall(stage: Stage, people: People): Part {
  const toMill = { do: 'request-move', train: 't41', to: 'e11' } as const;
  yield* refusedThen(stage, toMill, 7, { do: 'turn-selector', selector: 'K1', position: 'off' });
  yield* say(stage, { do: 'stop-all', why: 'a break', kind: 'break' }, 50);
  yield* sayAll(stage, rollCall(stage), 6);
  yield* sayAll(stage, knobsRead(stage), 1);
  yield* crewOf(stage, '2', people.dispatcher);
  yield* say(stage, { do: 'resume' }, 10);
}
