/** Every figure of a hand-worked evening. Seconds are those of the script in worked-evening.ts; lengths those of the example's edges. */
import { expect, test } from 'vitest';
import { figureTables } from '../../shared-model/logbook/figure-tables.ts';
import { eveningFigures, handsLoads } from '../../shared-model/logbook/figures.ts';
import { namesOf } from '../../shared-model/logbook/names.ts';
import { replayOf, stateAfter } from '../../shared-model/logbook/replay.ts';
import { foldEvents } from '../../shared-model/session/fold.ts';
import { workedEvening } from './worked-evening.ts';

const { railroad, initial, events } = workedEvening;
const figures = eveningFigures(railroad, initial, events);

// Entry 11, No. 7's request: block 2 is pledged to No. 12, and turnout T2 is locked reverse for it.
const ITS_REQUEST = [
  { code: 'block-owned', count: 1 },
  { code: 'turnout-locked', count: 1 },
];
// Entry 24, knob 1 to Cab 3: No. 7 is in block 1 still, its selector would pass over Cab 2, gap g1 would part two supplies never checked.
const ITS_TURN = [
  { code: 'block-occupied', count: 1 },
  { code: 'sweeps-live-position', count: 1 },
  { code: 'phase-unknown', count: 1 },
];
// Entry 16: knob 1 was found at Cab 3 under No. 7, which is Cab 1's.
const ITS_ALARM = { alarms: 1, alarmCodes: [{ code: 'wrong-throttle', count: 1 }] };
const NO_ALARM = { alarms: 0, alarmCodes: [] };

/** What Cab 1 and Avery have of No. 7, until it crosses into block 2 and is Cab 2's by the hand-off. */
const ofFirst = {
  distanceMm: 0,
  moves: 1,
  handOffs: 1,
  // Called at 15, granted at 90.
  waitSeconds: 75,
  overrides: 0,
  refusals: 1,
  refusalCodes: ITS_REQUEST,
  ...ITS_ALARM,
};
/** Cab 2 and Blake: No. 12's move by override, and No. 7 from block 2 on. */
const ofSecond = {
  // No. 12 enters e6 and e7: 250 + 300 mm. No. 7 enters e2, e3, e7: 300 + 2400 + 300 mm.
  distanceMm: 3550,
  moves: 1,
  handOffs: 0,
  waitSeconds: 0,
  overrides: 1,
  refusals: 1,
  // Of the reasons of entry 24 only the first names the train.
  refusalCodes: [{ code: 'block-occupied', count: 1 }],
  ...NO_ALARM,
};

test('the evening lasts 130 s; it runs from the start at 7 to its end', () => {
  expect(events).toHaveLength(25);
  expect(figures).toMatchObject({ seconds: 130, runningSeconds: 123 });
});

test('persons and cabs count from when the cab was given, and what a train does is theirs while they have it', () => {
  expect(figures.people).toEqual([
    { id: 'Avery', seconds: 129, ...ofFirst },
    { id: 'Blake', seconds: 128, ...ofSecond },
  ]);
  expect(figures.cabs).toEqual([
    { id: '1', seconds: 129, ...ofFirst },
    { id: '2', seconds: 128, ...ofSecond },
  ]);
});

test('trains count while they are on the track', () => {
  expect(figures.trains).toEqual([
    // Placed at 3. Refused at 20 and, as the train under knob 1, at 110.
    {
      id: 't7',
      seconds: 127,
      distanceMm: 3000,
      moves: 1,
      handOffs: 1,
      waitSeconds: 75,
      overrides: 0,
      refusals: 2,
      refusalCodes: [...ITS_REQUEST, { code: 'block-occupied', count: 1 }],
      ...ITS_ALARM,
    },
    // Placed at 4, lifted off at 80.
    {
      id: 't12',
      seconds: 76,
      distanceMm: 550,
      moves: 1,
      handOffs: 0,
      waitSeconds: 0,
      overrides: 1,
      refusals: 0,
      refusalCodes: [],
      ...NO_ALARM,
    },
  ]);
});

test('No. 7 waits from its call at 15 for block 2, which No. 12 has, until that is lifted off at 80; then for the dispatcher to 90', () => {
  const avery = { train: 't7', cab: '1', person: 'Avery' };
  expect(figures.waits).toEqual([
    { ...avery, thing: 'B2', block: 'B2', owner: 't12', seconds: 65, longest: { from: 15, seconds: 65 } },
    { ...avery, thing: null, block: null, owner: null, seconds: 10, longest: { from: 80, seconds: 10 } },
  ]);
});

test('blocks are held from the grant, occupied from the report, and open again when clear', () => {
  const none = { distanceMm: 0, moves: 0, handOffs: 0, throws: 0, refusals: 0, alarms: 0 };
  const noWait = { waitSeconds: 0, waitShare: 0 };
  expect(figures.blocks).toEqual([
    // No. 7 from 3 to the end. Knob 1 is thrown once; the three reasons of entry 24 are about block 1, knob 1, and gap g1 of it.
    {
      id: 'B1',
      occupiedSeconds: 127,
      heldSeconds: 127,
      ...none,
      throws: 1,
      refusals: 3,
      alarms: 1,
      ...noWait,
    },
    // Granted 10 to 80 and 90 to 130; in it 30 to 80 and 100 to 130. Knob 2 once, turnout T2 twice. 65 s of 75 s of waiting.
    {
      id: 'B2',
      occupiedSeconds: 80,
      heldSeconds: 110,
      distanceMm: 3550,
      moves: 2,
      handOffs: 1,
      throws: 3,
      refusals: 2,
      alarms: 0,
      waitSeconds: 65,
      waitShare: 65 / 75,
    },
    // No. 12 from 4 to 80. Knob 3 once.
    { id: 'B3', occupiedSeconds: 76, heldSeconds: 76, ...none, throws: 1, ...noWait },
    { id: 'B4', occupiedSeconds: 0, heldSeconds: 0, ...none, ...noWait },
  ]);
});

test('refusals and alarms by code, the override with its reason', () => {
  expect(figures.refusals).toEqual([...ITS_REQUEST, ...ITS_TURN]);
  expect(figures.alarms).toEqual(ITS_ALARM.alarmCodes);
  expect(figures.overrides).toEqual([
    { entry: 9, at: 10, why: 'the gap is in sight', train: 't12', cab: '2', person: 'Blake' },
  ]);
});

test('throws by minute: 5, 6, 24 and 26 s in the first, 97 s in the second; the refused turn at 110 is none', () => {
  expect(figures.throwsPerMinute).toEqual([4, 1, 0]);
  // At 3 s a throw: 12 s and 3 s of 60.
  expect(handsLoads(figures.throwsPerMinute, 3)).toEqual([20, 5, 0]);
});

test('a replay of any moment is the fold of the entries before it, also past a checkpoint', () => {
  const many = Array.from({ length: 20 }, () => events).flat();
  const replay = replayOf(initial, many);
  for (const position of [0, 1, 24, 199, 200, 201, 399, 400, 500])
    expect(stateAfter(replay, position)).toEqual(foldEvents(initial, many.slice(0, position)));
});

test('distances in both units: No. 7 ran 3000 mm, No. 12 550 mm, at 1:48', () => {
  const distances = (lengths: 'imperial' | 'metric') => {
    const trains = new Map([
      ['t7', 'No. 7'],
      ['t12', 'No. 12'],
    ]);
    const style = { lengths, throwSeconds: 3, clock: String };
    const tables = figureTables(figures, namesOf(railroad, trains, lengths), style);
    const table = tables.find(({ title }) => title === 'Trains');
    return [table?.columns[2], ...(table?.rows.map((row) => row[2]) ?? [])];
  };
  // 3000 mm × 48 = 144 m: 0.0895 of a mile of 1609.344 m (5280 ft); 550 mm × 48 = 26.4 m: 0.0164 miles.
  expect(distances('imperial')).toEqual(['scale miles by blocks reported', '0.09', '0.02']);
  expect(distances('metric')).toEqual(['scale km by blocks reported', '0.14', '0.03']);
});
