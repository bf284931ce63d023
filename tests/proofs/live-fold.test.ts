/** Live fold = fold from disk = fold from a checkpoint, for evenings of any input; and the log carried elsewhere gives the same once more. */
import fc from 'fast-check';
import { expect, test } from 'vitest';
import { openForReading } from '../../electron/host/log/open-log.ts';
import { stateAt } from '../../electron/host/log/state-at.ts';
import { verifyLog } from '../../electron/host/log/verify.ts';
import type { SessionInput } from '../../shared-model/session/input.ts';
import type { SessionState } from '../../shared-model/session/state.ts';
import { answered, item, openEvening } from '../support/host-suite.ts';
import { directHost, openedConsole, turnedClock } from '../support/open-host.ts';

const train = fc.constantFrom('t7', 't12');
const block = fc.constantFrom('B1', 'B2', 'B3', 'B4');
const cab = fc.constantFrom('1', '2', '3');
const supply = fc.constantFrom('north', 'south');
const selector = fc.constantFrom('K1', 'K2', 'K3');
const position = fc.constantFrom('off', '1', '2');
const spot = fc.constantFrom(
  { edge: 'e1', toward: 'g1' },
  { edge: 'e5', toward: 'g3' },
  { edge: 'e7', toward: 'g4' },
  { edge: 'e8', toward: 'n2' },
);

/** Orders and observations with names of the example railroad; most of them make sense at some moment. */
const input: fc.Arbitrary<object> = fc.oneof(
  fc.record({ do: fc.constant('assign-cab'), cab, person: fc.constantFrom('Avery', 'Blake', null) }),
  fc.tuple(train, spot, cab).map(([t, s, c]) => ({ do: 'place-train', train: t, ...s, cab: c })),
  fc.constant({ do: 'start' }),
  fc.record({ do: fc.constant('request-move'), train, to: block }),
  fc.record({ do: fc.constant('acknowledge'), authority: fc.constantFrom('a1', 'a2', 'a3') }),
  fc.record({ do: fc.constantFrom('turn-selector', 'selector-stands-at'), selector, position }),
  fc.record({ do: fc.constantFrom('train-entered', 'train-cleared'), train, block }),
  fc.record({ do: fc.constantFrom('train-stopped', 'advance', 'stalled'), train }),
  fc.tuple(train, spot).map(([t, s]) => ({ do: 'train-at', train: t, ...s })),
  fc.record({ do: fc.constantFrom('breaker-tripped', 'breaker-reset'), supply }),
  fc.record({ do: fc.constant('settle'), block, state: fc.constantFrom('open', 'occupied'), train }),
  fc.record({
    do: fc.constant('note'),
    text: fc.string({ minLength: 1, maxLength: 20 }).filter((text) => !/\p{Surrogate}/u.test(text)),
  }),
  fc.record({
    do: fc.constant('retract'),
    entry: fc.integer({ min: 1, max: 40 }),
    why: fc.constant('misread'),
  }),
);

test('an evening of any input has one state: live, on disk, from a checkpoint, after a restart, and in another log', async () => {
  await fc.assert(
    fc.asyncProperty(
      fc.array(fc.array(input, { minLength: 1, maxLength: 4 }), { minLength: 5, maxLength: 40 }),
      async (batches) => {
        const { clock, pass } = turnedClock();
        const first = openedConsole({ clock });
        const host = directHost(first);
        const { id } = await openEvening(host);
        for (const batch of batches) {
          pass(1);
          await answered(host.call('evening.send', { items: batch.map(item) }));
        }
        const { state } = await answered<{ state: SessionState }>(host.call('evening.read', {}));
        const { text } = await answered<{ text: string }>(host.call('evenings.export', { id }));
        await first.close();

        const reading = openForReading(first.log);
        if (!reading.ok) throw new Error(reading.problem.says);
        expect(stateAt(reading.log, Number(id), state.entries)).toEqual(state);
        expect(stateAt(reading.log, Number(id), state.entries, false)).toEqual(state);
        expect(verifyLog(reading.log).good).toBe(true);
        reading.log.close();

        const again = openedConsole({ clock, log: first.log });
        const resumed = await answered<{ state: SessionState }>(again.host.call('evening.read', {}));
        expect(resumed.state).toEqual(state);
        // Every entry is judged again by the rules when it is adopted, so this is the fold of the inputs as well.
        const card = await answered<{ id: string }>(
          openedConsole({ clock }).host.call('evenings.import', { text }),
        );
        expect(card.id).toBe('1');
        await again.close();
      },
    ),
    { numRuns: 25, seed: 20261125 },
  );
});

test('an evening of 1,200 entries is the same from each of its checkpoints', async () => {
  const { clock, pass } = turnedClock();
  const console_ = openedConsole({ clock });
  const host = directHost(console_);
  const { id } = await openEvening(host);
  const inputs = fc.sample(input, { numRuns: 1199, seed: 7 }) as SessionInput[];
  for (const one of inputs) {
    pass(0.5);
    await answered(host.call('evening.send', { items: [item(one)] }));
  }
  const { state } = await answered<{ state: SessionState }>(host.call('evening.read', {}));
  expect(state.entries).toBe(1200);
  await console_.close();
  const reading = openForReading(console_.log);
  if (!reading.ok) throw new Error(reading.problem.says);
  const { log } = reading;
  expect(log.prepare('SELECT entry FROM checkpoints ORDER BY entry').pluck().all()).toEqual([
    200, 400, 600, 800, 1000, 1200,
  ]);
  for (const entry of [199, 200, 201, 999, 1000, 1001, 1200])
    expect(stateAt(log, Number(id), entry)).toEqual(stateAt(log, Number(id), entry, false));
  expect(stateAt(log, Number(id), 1200)).toEqual(state);
  log.close();
});
