/** The break: everything stops, everybody says where they stand, and the knobs are read again. */
import type { TrainId } from '../../ids.ts';
import { order, runOut, throwAll } from './crew.ts';
import type { People } from './opening.ts';
import { type Part, type Stage, say, sayAll, type Words } from './stage.ts';

/** No. 12 did not make its gap: it stands with its head at the ridge turnout, across the gap behind. */
const ACROSS = { edge: 'e16', toward: 'T3' } as const;

/** Where the head of every placed train stands, as its crew says it. */
function rollCall(stage: Stage): readonly Words[] {
  return Object.entries(stage.evening.state.trains).flatMap(([id, train]) => {
    const head = (id as TrainId) === 't12' ? ACROSS : train.trail[0];
    return train.placed && head !== undefined
      ? [{ do: 'train-at', train: id, edge: head.edge, toward: head.toward }]
      : [];
  });
}

function knobsRead(stage: Stage): readonly Words[] {
  return Object.entries(stage.evening.state.selectors).map(([id, { position }]) => ({
    do: 'selector-stands-at',
    selector: id,
    position,
  }));
}

/** Stops in mid-run for a break; after it the dispatcher takes cab 2 over as well. */
export function* breakAndRollCall(stage: Stage, people: People): Part {
  yield* order(stage, 't12', 'e17');
  while (stage.evening.state.trains['t12' as TrainId]?.blocks[0] !== 'B8')
    yield* say(stage, { do: 'advance', train: 't12' }, 12);
  yield* say(stage, { do: 'stop-all', why: 'coffee', kind: 'break' }, 20);
  yield* say(stage, { do: 'turn-selector', selector: 'K8', position: 'off' }, 240);
  yield* sayAll(stage, rollCall(stage), 6);
  yield* sayAll(stage, knobsRead(stage), 3);
  yield* say(stage, {
    do: 'note',
    text: `${people.second} has to leave early; ${people.dispatcher} takes cab 2 over.`,
  });
  yield* say(stage, { do: 'assign-cab', cab: '2', person: people.dispatcher });
  yield* say(stage, { do: 'resume' }, 20);
}

/** Knob 8 has no stops and lies at off: either way round passes a live handle, and No. 12 stands across the gap. */
export function* turnPastLiveHandles(stage: Stage): Part {
  yield* say(stage, { do: 'request-move', train: 't12', to: 'e19' });
  const turn = { do: 'turn-selector', selector: 'K8', position: '3' } as const;
  for (let event = yield* say(stage, turn); event.outcome === 'refused'; event = yield* say(stage, turn)) {
    const passed = event.reasons[0]?.about[1];
    yield* say(stage, { do: 'handle-at-zero', cab: passed });
  }
  yield* throwAll(stage, 't12');
  yield* runOut(stage, 't12', 20);
}
