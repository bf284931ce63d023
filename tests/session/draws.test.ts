/** Which trains draw current on record: those that run, those that stall, never those that stand. */
import { expect, test } from 'vitest';
import { railroadDocument } from '../../shared-model/railroad/document.ts';
import { indexRailroad } from '../../shared-model/railroad/railroad.ts';
import { newEvening, take } from '../../shared-model/session/evening.ts';
import { drawsOf } from '../../shared-model/session/facts/draws.ts';
import { sessionInput } from '../../shared-model/session/input.ts';
import { passingSidingExample } from '../support/example.ts';

const railroad = indexRailroad(
  railroadDocument.parse({
    ...passingSidingExample,
    trains: passingSidingExample.trains.map((train) =>
      train.id === 't7' ? { ...train, stallAmps: 5 } : train,
    ),
  }),
);

/** The state after No. 7 stands in the west end on cab 1, and then what is given. */
function stateAfter(...more: readonly Record<string, unknown>[]) {
  const inputs = [
    { do: 'open-session', alone: true },
    { do: 'assign-cab', cab: '1', person: 'Avery' },
    { do: 'place-train', train: 't7', edge: 'e1', toward: 'g1', cab: '1' },
    { do: 'start' },
    ...more,
  ];
  return inputs.reduce(
    (evening, input) =>
      take(evening, { at: evening.state.entries, input: sessionInput.parse(input) }).evening,
    newEvening(railroad),
  ).state;
}

test('a train that stands draws nothing now, and its amperes if all run', () => {
  const state = stateAfter();
  expect(drawsOf(railroad, state, 'now')).toEqual([]);
  expect(drawsOf(railroad, state, 'all')).toEqual([
    { train: 't7', amps: 3.2, throttle: '1', selectors: ['K1'] },
  ]);
});

test('one that runs draws through the knobs of all the blocks that it is in', () => {
  const running = stateAfter(
    { do: 'request-move', train: 't7', to: 'B2' },
    { do: 'train-entered', train: 't7', block: 'B2' },
  );
  const [draw] = drawsOf(railroad, running, 'now');
  expect(draw).toMatchObject({ train: 't7', amps: 3.2 });
  expect([...(draw?.selectors ?? [])].sort()).toEqual(['K1', 'K2']);
});

test('one that stalls draws what its motor draws at a stand', () => {
  const state = stateAfter({ do: 'stalled', train: 't7' });
  expect(drawsOf(railroad, state, 'now')).toMatchObject([{ train: 't7', amps: 5 }]);
});
