/** The break: everything stops, everybody says where they stand, and the knobs are read again. */
import type { SelectorId, TrainId } from '../../ids.ts';
import { order, readBack, runOut, throwAll } from './crew.ts';
import type { People } from './opening.ts';
import { type Part, type Stage, say, sayAll, type Words } from './stage.ts';

/** Where the head of every placed train stands, as its crew says it. */
function rollCall(stage: Stage): readonly Words[] {
  const { state } = stage.evening;
  return Object.entries(state.trains).flatMap(([id, train]) => {
    const head = train.trail[0];
    return train.placed && head !== undefined && (id as TrainId) !== 't12'
      ? [{ do: 'train-at', train: id, edge: head.edge, toward: head.toward }]
      : [];
  });
}

function knobsRead(stage: Stage): readonly Words[] {
  return Object.entries(stage.evening.state.selectors).map(([id, { position }]) => ({
    do: 'selector-stands-at',
    selector: id as SelectorId,
    position,
  }));
}

export function* breakAndRollCall(stage: Stage, people: People): Part {
  yield* say(stage, { do: 'stop-all', why: 'coffee', kind: 'break' }, 300);
  yield* sayAll(stage, rollCall(stage), 6);
  yield* sayAll(stage, knobsRead(stage), 3);
  yield* say(stage, { do: 'assign-cab', cab: '2', person: people.dispatcher });
  yield* say(stage, { do: 'resume' }, 20);
}
