/** Every figure of a hand-worked evening. Seconds are those of the script in worked-evening.ts. */
import { expect, test } from 'vitest';
import { scaleMiles } from '../../shared-model/logbook/distance.ts';
import { eveningFigures } from '../../shared-model/logbook/figures.ts';
import { replayOf, stateAfter } from '../../shared-model/logbook/replay.ts';
import { trainSheet } from '../../shared-model/logbook/train-sheet.ts';
import { foldEvents } from '../../shared-model/session/fold.ts';
import { workedEvening } from './worked-evening.ts';

const { railroad, initial, events } = workedEvening;
const figures = eveningFigures(railroad, initial, events);
const run = { moves: 1, handOffs: 0, alarms: 0 };
// No. 7 enters e2, e3, e7: 300 + 2400 + 300 mm. It asks at 20 and is granted at 90. Refused once, at 20.
const ofSeven = { ...run, distanceMm: 3000, waitSeconds: 70, refusals: 1 };
// No. 12 enters e6 and e7: 250 + 300 mm. It never waits.
const ofTwelve = { ...run, distanceMm: 550, waitSeconds: 0, refusals: 0 };

test('the evening lasts 130 s; it runs from the start at 7 to its end', () => {
  expect(events).toHaveLength(25);
  expect(figures).toMatchObject({ seconds: 130, runningSeconds: 123 });
});

test('persons and cabs count from when the cab was given, trains while they are on the track', () => {
  expect(figures.people).toEqual([
    { id: 'Avery', seconds: 129, ...ofSeven },
    { id: 'Blake', seconds: 128, ...ofTwelve },
  ]);
  expect(figures.cabs).toEqual([
    { id: '1', seconds: 129, ...ofSeven },
    { id: '2', seconds: 128, ...ofTwelve },
  ]);
  expect(figures.trains).toEqual([
    { id: 't7', seconds: 127, ...ofSeven },
    { id: 't12', seconds: 76, ...ofTwelve },
  ]);
});

test('No. 7 waits for block 2, which No. 12 has, until that is lifted off; then 10 s for the dispatcher', () => {
  expect(figures.waits).toEqual([
    { train: 't7', thing: 'B2', owner: 't12', seconds: 60 },
    { train: 't7', thing: null, owner: null, seconds: 10 },
  ]);
});

test('blocks are held from the grant, occupied from the report, and open again when clear', () => {
  expect(figures.blocks).toEqual([
    // Placed at 3, clear at 120.
    { id: 'B1', occupiedSeconds: 117, heldSeconds: 117, waitSeconds: 0, waitShare: 0 },
    // Granted 10 to 80 and 90 to 130; in it 30 to 80 and 100 to 130.
    { id: 'B2', occupiedSeconds: 80, heldSeconds: 110, waitSeconds: 60, waitShare: 60 / 70 },
    // Placed at 4, lifted off at 80.
    { id: 'B3', occupiedSeconds: 76, heldSeconds: 76, waitSeconds: 0, waitShare: 0 },
    { id: 'B4', occupiedSeconds: 0, heldSeconds: 0, waitSeconds: 0, waitShare: 0 },
  ]);
});

test('refusals by code, no alarm, no override; a refused turn is no throw', () => {
  expect(figures.refusals).toEqual([
    // Entry 10: block 2 is pledged to No. 12, and turnout T2 is locked reverse for it.
    { code: 'block-owned', count: 1 },
    { code: 'turnout-locked', count: 1 },
    // Entry 22: No. 7 is in block 1 still, and stands across gap g1.
    { code: 'block-occupied', count: 1 },
    { code: 'bridged', count: 1 },
  ]);
  expect(figures.alarms).toEqual([]);
  expect(figures.overrides).toEqual([]);
  expect(figures.throwsPerMinute).toEqual([4, 2, 0]);
});

// NMRA S-1.2: O is 1:48, so a scale mile is 5280 / 48 = 110 ft; at 1:160 it is 33 ft. 1 ft is 304.8 mm by definition.
test.each([
  [48, 110],
  [64, 82.5],
  [160, 33],
])('at 1:%d a scale mile is %d ft on the model', (ratio, feet) => {
  expect(scaleMiles(feet * 304.8, ratio)).toBeCloseTo(1, 12);
});

test('the sheet has the times on duty and the note as an unusual event', () => {
  const sheet = trainSheet(railroad, initial, events);
  expect(sheet.duties).toEqual([
    { person: 'Avery', cab: '1', from: 1, to: null },
    { person: 'Blake', cab: '2', from: 2, to: null },
  ]);
  expect(sheet.unusual.map(({ entry, at }) => [entry, at])).toEqual([[15, 50]]);
});

test('a replay of any moment is the fold of the entries before it, also past a checkpoint', () => {
  const many = Array.from({ length: 20 }, () => events).flat();
  const replay = replayOf(initial, many);
  for (const position of [0, 1, 24, 199, 200, 201, 399, 400, 500])
    expect(stateAfter(replay, position)).toEqual(foldEvents(initial, many.slice(0, position)));
});
