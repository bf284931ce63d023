/** Trains put on the track of a rehearsal: where they find room, how the knobs under them come to stand, and all that is wrong at once. */
import { describe, expect, it } from 'vitest';
import { knobsTurned, standsDead, withKnobsFor } from '../../../renderer/rehearsal/knobs-in-the-way.ts';
import { freeSpot, roomBehind } from '../../../renderer/rehearsal/room.ts';
import { restWords, rowWords, wrongBlocks, wrongIn } from '../../../renderer/rehearsal/what-is-wrong.ts';
import { parseSituation, type SituationJson } from '../../../shared-model/planning/situation.ts';
import { beyond } from '../../../shared-model/railroad/where-words.ts';
import { demo } from '../../support/three-trains.ts';

type Row = SituationJson['trains'][number];
const rows = (...trains: readonly object[]): SituationJson => ({ trains: trains as Row[] });
const depotMain = { train: 't7', edge: 'e6', toward: 'g4', cab: '1' };
const depotSiding = { train: 't12', edge: 'e34', toward: 'g14', cab: '2' };
/** No. 41 is 1800 mm long, the track of Harbor Hold 1500 mm. */
const inHarborHold = { train: 't41', edge: 'e50', toward: 'g22', cab: '3' };

describe('one more train', () => {
  it('finds a spot where it fits, which its cab can feed, and where no other train is, until there is none', () => {
    let json: SituationJson = rows();
    for (const { id } of demo.document.trains)
      for (const cab of demo.document.throttles) {
        const spot = freeSpot(demo, json, id, cab.id);
        expect(spot).not.toBeNull();
        const one = { ...rows({ train: id, ...spot, cab: cab.id, to: 'B6' }) };
        expect(parseSituation(demo, one).ok).toBe(true);
      }
    for (const { id, length } of demo.document.trains) {
      const spot = freeSpot(demo, json, id, '1' as never);
      if (spot === null) throw new Error('there is room for six trains');
      // Not against a buffer: it is put on to be sent somewhere.
      expect(beyond(demo, spot)).not.toEqual([]);
      expect(roomBehind(demo, json, { train: id, ...spot, cab: '1' })).toBeGreaterThanOrEqual(length);
      json = rows(...json.trains, { train: id, ...spot, cab: '1' });
    }
    const { rows: wrong, standing } = wrongIn(demo, withKnobsFor(demo, json));
    expect([wrong.size, standing?.trains.length]).toEqual([0, 6]);
  });

  it('finds none on a railroad that is full', () => {
    const full = demo.document.blocks.flatMap(({ id }) => {
      const [edge] = demo.edgesOfBlock.get(id) ?? [];
      const toward = edge === undefined ? undefined : demo.edges.get(edge)?.between[0];
      return [{ train: 't24', edge, toward, cab: '1' }];
    });
    expect(freeSpot(demo, rows(...full), 't3' as never, '1' as never)).toBeNull();
  });
});

describe('the knobs under trains', () => {
  it('are turned for a train that is to go, and those turned are told', () => {
    const began = { ...rows(depotMain), selectors: { K3: 'off', K10: 'off' } } as SituationJson;
    const now = withKnobsFor(demo, { ...began, trains: rows({ ...depotMain, to: 'B1' }).trains });
    expect(parseSituation(demo, now).ok).toBe(true);
    expect(knobsTurned(began, now)).toEqual(['K3']);
  });

  it('are off under a train that only stands while its cab runs another one, and on again when it is to go', () => {
    const together = rows({ ...depotMain, to: 'B1' }, { ...depotSiding, cab: '1' });
    const [, parked] = together.trains;
    if (parked === undefined) throw new Error('two trains');
    expect(parseSituation(demo, together).ok).toBe(false);
    const apart = withKnobsFor(demo, together);
    expect(parseSituation(demo, apart).ok).toBe(true);
    expect(standsDead(demo, apart, parked)).toBe(true);
    const goes = rows(depotMain, { ...depotSiding, cab: '2', to: 'B1' });
    const after = withKnobsFor(demo, { ...apart, trains: goes.trains });
    expect(parseSituation(demo, after).ok).toBe(true);
  });

  it('are put off at the toggle of a holding section, so that what is before it can be run', () => {
    const held = rows(
      { train: 't24', edge: 'e48', toward: 'g18', cab: '4' },
      { train: 't3', edge: 'e46', toward: 'g16', cab: '4', to: 'B11' },
    );
    const settled = withKnobsFor(demo, held);
    expect(parseSituation(demo, settled).ok).toBe(true);
    expect(settled.toggles).toEqual({ H1: false });
  });

  it('help nothing where both are to go: it stays as it was given', () => {
    const both = rows({ ...depotMain, to: 'B1' }, { ...depotSiding, cab: '1', to: 'B5' });
    expect(withKnobsFor(demo, both)).toEqual(both);
  });
});

describe('what is wrong', () => {
  const json = {
    ...rows(depotMain, { ...depotSiding, edge: 'e6', toward: 'g3' }, inHarborHold, {
      train: 't24',
      edge: 'e46',
      toward: 'g16',
      cab: '4',
      to: 'B3',
    }),
    selectors: { K12: 'off' },
  } as SituationJson;
  const wrong = wrongIn(demo, json);
  const says = (row: number) => {
    const malformed = wrong.rows.get(row);
    return malformed === undefined ? undefined : rowWords(demo, json, row, malformed, 'metric');
  };

  it('is found at every train and knob, not at the first alone; who stands right is known still', () => {
    expect([...wrong.rows.keys()]).toEqual([2, 1]);
    expect(wrong.standing?.trains.map(({ id }) => id)).toEqual(['t7', 't24']);
    expect(wrongBlocks(demo, json, wrong)).toEqual(['B18', 'B3']);
  });

  it('is said in the owner’s names and the user’s units', () => {
    expect(says(1)).toBe('No. 7 and No. 12 are both in 3 Depot Main: only one can be.');
    expect(says(2)).toBe(
      'No. 41 does not fit there: it is 1.8 m long, and behind its head are 1.5 m of track as the turnouts stand.',
    );
    if (wrong.rest === null) throw new Error('a knob stands against No. 24');
    expect(restWords(demo, wrong.rest)).toBe('Selector 12 is off, but No. 24 is in 12 Yard Front.');
  });

  it('is told of a cab that two trains would need, with what can be done', () => {
    const both = rows({ ...depotMain, to: 'B1' }, { ...depotSiding, cab: '1', to: 'B5' });
    const malformed = wrongIn(demo, both).rows.get(1);
    if (malformed === undefined) throw new Error('two trains of one cab');
    expect(rowWords(demo, both, 1, malformed, 'metric')).toBe(
      'No. 7 has Cab 1 too: one cab runs one train. Give it another cab, or let one of them stay where it is.',
    );
  });
});
