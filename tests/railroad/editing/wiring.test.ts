/** Operations on the wiring of a draft: what each leaves, and what it refuses. */
import { describe, expect, test } from 'vitest';
import { blockId, edgeId, supplyId, throttleId } from '../../../shared-model/ids.ts';
import { railroadDocument } from '../../../shared-model/railroad/document.ts';
import { allDialsLike, onEveryDial } from '../../../shared-model/railroad/editing/dials.ts';
import { blankSheet, type DraftDocument } from '../../../shared-model/railroad/editing/draft.ts';
import {
  wireOf,
  withFeeder,
  withFeederFields,
  withoutFeeder,
  withWire,
  withWireWhereMissing,
} from '../../../shared-model/railroad/editing/feeders.ts';
import type { Outcome } from '../../../shared-model/railroad/editing/outcome.ts';
import {
  withNewSupply,
  withNewThrottle,
  withoutSupply,
  withoutThrottle,
} from '../../../shared-model/railroad/editing/power-things.ts';
import {
  deadEdges,
  withBlockOn,
  withDeadTrackFed,
  withoutBlock,
  withSource,
} from '../../../shared-model/railroad/editing/sources.ts';
import { withThing } from '../../../shared-model/railroad/editing/things.ts';
import { passingSidingExample } from '../../support/example.ts';

function drafted(outcome: Outcome): DraftDocument {
  if (!outcome.ok) throw new Error(outcome.says);
  return outcome.draft;
}
const says = (outcome: Outcome) => (outcome.ok ? 'done' : outcome.says);

const unwired: DraftDocument = { ...passingSidingExample, blocks: [], selectors: [] };
const withSetting: DraftDocument = railroadDocument.parse({
  ...passingSidingExample,
  settings: [{ id: 's1', name: 'Two', selectors: { K1: '2', K2: '1' }, turnouts: {}, toggles: {} }],
});
const [one, two] = [throttleId.parse('1'), throttleId.parse('2')];
const b = (number: number) => blockId.parse(`B${number}`);

describe('supplies and throttles', () => {
  test('the first throttle brings a supply with it; throttles are numbered as they stand on the dials', () => {
    const draft = withNewThrottle(withNewThrottle(blankSheet('New')));
    expect(draft.supplies.map(({ id }) => id)).toEqual(['S1']);
    expect(draft.throttles.map(({ id, name, supply }) => [id, name, supply])).toEqual([
      ['1', 'Cab 1', 'S1'],
      ['2', 'Cab 2', 'S1'],
    ]);
  });

  test('another supply begins with the figures of the last one', () => {
    const first = withNewSupply(blankSheet('New'));
    const changed = withThing(first, 'supplies', 'S1', { ratedVa: 90, wave: 'chopped' });
    expect(withNewSupply(changed).supplies[1]).toMatchObject({ id: 'S2', ratedVa: 90, wave: 'chopped' });
  });

  test('a supply with throttles on it stays', () => {
    expect(says(withoutSupply(passingSidingExample, supplyId.parse('north')))).toBe(
      'Cab 1, Cab 2 are on it: give them another supply first',
    );
  });

  test('a throttle that is taken out leaves its positions unwired, and settings at off', () => {
    const after = drafted(withoutThrottle(withSetting, two));
    expect(after.selectors[0]?.positions).toEqual(['off', '1', null, '3']);
    expect(after.settings[0]?.selectors).toEqual({ K1: 'off', K2: '1' });
    expect(says(withoutThrottle(withSetting, throttleId.parse('3')))).toBe(
      'East end is wired straight to it: give them another source first',
    );
  });
});

describe('dials', () => {
  test('a throttle put on every dial takes the first position that is not wired, else a further one', () => {
    const without = withThing(
      withThing(passingSidingExample, 'selectors', 'K1', { positions: ['off', one, null] }),
      'selectors',
      'K2',
      { positions: ['off', one] },
    );
    expect(onEveryDial(without, two).selectors.map(({ positions }) => positions)).toEqual([
      ['off', '1', '2'],
      ['off', '1', '2'],
      ['off', '1', '2', null],
    ]);
  });

  test('all dials like one: names and places on the wooden board stay', () => {
    const draft = withThing(passingSidingExample, 'selectors', 'K3', { at: [4, 1], contactAmps: 5 });
    const after = allDialsLike(draft, 'K3');
    expect(
      after.selectors.map(({ name, contactAmps, positions }) => [name, contactAmps, positions[3]]),
    ).toEqual([
      ['1', 5, null],
      ['2', 5, null],
      ['3', 5, null],
    ]);
    expect(after.selectors.map(({ at }) => at)).toEqual([undefined, undefined, [4, 1]]);
  });
});

describe('blocks and their sources', () => {
  test('dead track is fed in one act: a block and a selector for each section, on its longest edge', () => {
    expect(deadEdges(unwired)).toEqual(['e1', 'e3', 'e5', 'e8']);
    const fed = drafted(withDeadTrackFed(unwired, 'selector'));
    expect(fed.blocks.map(({ id, source, feeders }) => [id, source, feeders])).toEqual([
      ['B1', { selector: 'K1' }, [{ edge: 'e1' }]],
      ['B2', { selector: 'K2' }, [{ edge: 'e3' }]],
      ['B3', { selector: 'K3' }, [{ edge: 'e5' }]],
      ['B4', { selector: 'K4' }, [{ edge: 'e8' }]],
    ]);
    expect(fed.selectors.map(({ positions, at }) => [positions, at])).toEqual(
      [0, 1, 2, 3].map((column) => [
        ['off', '1', '2', '3'],
        [column, 0],
      ]),
    );
    expect(deadEdges(fed)).toEqual([]);
  });

  test('a block that goes straight to a throttle gives its own selector up; one that others share stays', () => {
    const straight = drafted(withSource(passingSidingExample, b(1), { kind: 'throttle', throttle: two }));
    expect(straight.selectors.map(({ id }) => id)).toEqual(['K2', 'K3']);
    expect(straight.blocks[0]?.source).toEqual({ throttle: '2' });
    const shared = withThing(passingSidingExample, 'blocks', 'B2', { source: { selector: 'K1' as never } });
    const kept = drafted(withSource(shared, b(1), { kind: 'throttle', throttle: one }));
    expect(kept.selectors.map(({ id }) => id)).toContain('K1');
  });

  test('behind a toggle: a new toggle, and never from itself', () => {
    const held = drafted(withSource(passingSidingExample, b(3), { kind: 'toggle', from: b(2) }));
    expect(held.blocks[2]?.source).toEqual({ toggle: 'H1', from: 'B2' });
    expect(held.toggles.map(({ id, name }) => [id, name])).toEqual([['H1', 'Hold 1']]);
    expect(says(withSource(passingSidingExample, b(3), { kind: 'toggle', from: b(3) }))).toBe(
      'a block cannot be fed from itself',
    );
    expect(says(withoutBlock(held, b(2)))).toBe('Siding hangs on it behind a toggle: feed that first');
  });

  test('without a throttle nothing can be wired straight to one', () => {
    const bare: DraftDocument = { ...unwired, throttles: [] };
    expect(says(withBlockOn(bare, edgeId.parse('e1'), { kind: 'throttle' }))).toBe(
      'there is no throttle yet: enter one first',
    );
    expect(
      drafted(withBlockOn(bare, edgeId.parse('e1'), { kind: 'selector' })).selectors[0]?.positions,
    ).toEqual(['off']);
  });

  test('a block that is taken out takes its selector along, out of the settings too', () => {
    const after = drafted(withoutBlock(withSetting, b(1)));
    expect(after.blocks.map(({ id }) => id)).toEqual(['B2', 'B3', 'B4']);
    expect(after.selectors.map(({ id }) => id)).toEqual(['K2', 'K3']);
    expect(after.settings[0]?.selectors).toEqual({ K2: '1' });
  });
});

describe('feeders', () => {
  test('one piece is written as one, several as a list, none not at all', () => {
    const wires = (draft: DraftDocument) => draft.blocks[0]?.feeders[0]?.wire;
    const piece = { awg: 14, run: 3000 };
    expect(wires(withWire(passingSidingExample, b(1), 0, [piece]))).toEqual(piece);
    const both = [piece, { awg: 20, run: 200 }];
    expect(wires(withWire(passingSidingExample, b(1), 0, both))).toEqual(both);
    expect(passingSidingExample.blocks[0]?.feeders.map(wireOf)).toEqual([[{ awg: 14, run: 3600 }]]);
    expect(withWire(passingSidingExample, b(1), 0, []).blocks[0]?.feeders).toEqual([{ edge: 'e1' }]);
  });

  test('a feeder comes, gets its terminal and its way, and goes', () => {
    const come = withFeeder(passingSidingExample, b(1), edgeId.parse('e1'));
    const named = withFeederFields(come, b(1), 1, { terminal: 'N-4', route: 'north duct' });
    expect(named.blocks[0]?.feeders[1]).toEqual({ edge: 'e1', terminal: 'N-4', route: 'north duct' });
    expect(withFeederFields(named, b(1), 1, { route: undefined }).blocks[0]?.feeders[1]).toEqual({
      edge: 'e1',
      terminal: 'N-4',
    });
    expect(withoutFeeder(named, b(1), 1)).toEqual(passingSidingExample);
  });

  test('the same wire for all feeders without one leaves the others as they are', () => {
    const missing = withWire(passingSidingExample, b(2), 0, []);
    const filled = withWireWhereMissing(missing, { awg: 12, run: 1000 });
    expect(filled.blocks.map(({ feeders }) => feeders[0]?.wire)).toEqual([
      { awg: 14, run: 3600 },
      { awg: 12, run: 1000 },
      { awg: 14, run: 2700 },
      { awg: 14, run: 5400 },
    ]);
  });
});
