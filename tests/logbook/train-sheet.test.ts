/** The train sheet: who was on duty, where trains were when, what was unusual; clock time and railroad time. */
import { expect, test } from 'vitest';
import { eveningFigures } from '../../shared-model/logbook/figures.ts';
import { reportTables } from '../../shared-model/logbook/report-tables.ts';
import { railroadTimeText } from '../../shared-model/logbook/time-text.ts';
import { trainSheet } from '../../shared-model/logbook/train-sheet.ts';
import { writtenBeside, writtenLines } from '../../shared-model/logbook/written-beside.ts';
import { indexRailroad } from '../../shared-model/railroad/railroad.ts';
import { newEvening, take } from '../../shared-model/session/evening.ts';
import { sessionInput } from '../../shared-model/session/input.ts';
import { passingSidingExample } from '../support/example.ts';
import { workedEvening } from './worked-evening.ts';

const railroad = indexRailroad({
  ...passingSidingExample,
  places: [
    { id: 'east', name: 'East', order: 2, at: [{ edge: 'e7', toward: 'g4' }] },
    { id: 'west', name: 'West', order: 1, at: [{ edge: 'e1', toward: 'g1' }] },
  ] as never,
});

/** No. 7 from West to East, and Kim relieved by Robin at the desk; railroad time six times as fast from 8:00 on. */
const evening = (
  [
    [0, { do: 'open-session' }],
    [1, { do: 'note', text: 'Kim dispatches.' }],
    [2, { do: 'assign-cab', cab: '1', person: 'Avery' }],
    [3, { do: 'place-train', train: 't7', edge: 'e1', toward: 'g1', cab: '1' }],
    [4, { do: 'turn-selector', selector: 'K1', position: '1' }],
    [5, { do: 'set-clock', ratio: 6, minutes: 480 }],
    [10, { do: 'start' }],
    [20, { do: 'request-move', train: 't7', to: 'e7' }],
    [22, { do: 'acknowledge', authority: 'a1' }],
    [24, { do: 'turn-selector', selector: 'K2', position: '1' }],
    [40, { do: 'train-entered', train: 't7', block: 'B2' }],
    [60, { do: 'note', text: 'Robin dispatches from here on.' }],
    [61, { do: 'note', text: 'nobody said that he dispatches' }],
    [70, { do: 'assign-cab', cab: '1', person: 'Noor' }],
    [80, { do: 'derailed', train: 't7' }],
    [90, { do: 'end-session' }],
  ] as const
).reduce(
  (now, [at, input]) => take(now, { at, input: sessionInput.parse(input) }).evening,
  newEvening(railroad),
);
const sheet = trainSheet(railroad, evening.initial, evening.events);

test('dispatchers are on duty by the notes that say so, people by their cabs', () => {
  expect(sheet.dispatchers).toEqual([
    { person: 'Kim', cab: null, from: 1, to: 60 },
    { person: 'Robin', cab: null, from: 60, to: 90 },
  ]);
  expect(sheet.duties).toEqual([
    { person: 'Avery', cab: '1', from: 2, to: 70 },
    { person: 'Noor', cab: '1', from: 70, to: 90 },
  ]);
});

test('a train is at a place while its head is on a track of it; up is away from the first place', () => {
  expect(sheet.passings).toEqual([
    { train: 't7', place: 'west', arrived: 3, departed: 40, direction: null, distanceMm: 0 },
    // e2, e3 and e7: 300 + 2400 + 300 mm.
    { train: 't7', place: 'east', arrived: 40, departed: null, direction: 'up', distanceMm: 3000 },
  ]);
});

test('reporting points are in their order, with the shortest track from the first', () => {
  expect(sheet.points).toEqual([
    { place: 'west', fromFirstMm: 0, fromBeforeMm: null },
    { place: 'east', fromFirstMm: 3000, fromBeforeMm: 3000 },
  ]);
});

test('trains and engines have their length, the cabs that had them and how far they went', () => {
  expect(sheet.trains).toEqual([
    { id: 't7', name: 'No. 7', lengthMm: 1400, placed: 3, cabs: ['1'], distanceMm: 3000 },
  ]);
});

test('unusual events are those of the record, with the trains concerned', () => {
  expect(sheet.unusual.map(({ entry, at, trains }) => [entry, at, trains])).toEqual([
    [2, 1, []],
    [12, 60, []],
    [13, 61, []],
    [15, 80, ['t7']],
  ]);
  const worked = trainSheet(workedEvening.railroad, workedEvening.initial, workedEvening.events);
  // The knob found wrong names no train: it is the one that the alarm was raised for.
  expect(worked.unusual.map(({ entry, trains }) => [entry, trains])).toEqual([
    [9, ['t12']],
    [16, ['t7']],
  ]);
});

test('railroad time stands until the evening runs, then goes by the ratio; before it was set there is none', () => {
  expect(railroadTimeText(sheet.clocks, 4)).toBe('');
  expect(railroadTimeText(sheet.clocks, 9)).toBe('8:00');
  // 30 s after the start, six times as fast: 3 minutes.
  expect(railroadTimeText(sheet.clocks, 40)).toBe('8:03');
});

test('the sheet on paper has clock time, railroad time and the distance in the user’s unit', () => {
  const made = (lengths: 'metric' | 'imperial') =>
    reportTables(railroad, eveningFigures(railroad, evening.initial, evening.events), sheet, {
      lengths,
      throwSeconds: 3,
      clock: (at) => `20:00:${String(at).padStart(2, '0')}`,
    }).sheet.find(({ title }) => title === 'Trains at reporting points');
  // 3000 mm at 1:48: 0.144 km, 0.089 miles.
  expect(made('metric')?.rows).toEqual([
    ['No. 7', 'West', '20:00:03', '', '20:00:40', '8:03', '', '0.00'],
    ['No. 7', 'East', '20:00:40', '8:03', '', '', 'up', '0.14'],
  ]);
  expect(made('imperial')?.rows[1]?.at(-1)).toBe('0.09');
  expect(made('metric')?.columns.at(-1)).toBe('scale km by blocks reported');
});

test('what is written in beside the sheet is kept apart; anything else kept there counts as nothing', () => {
  expect(writtenLines(writtenBeside({ place: 'Elm Street', weather: '' }))).toEqual(['Place: Elm Street']);
  expect(writtenLines(writtenBeside({ place: 7 }))).toEqual([]);
  expect(writtenLines(writtenBeside(undefined))).toEqual([]);
});
