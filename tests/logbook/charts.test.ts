/** What the charts of the hand-worked evening are drawn from, and that a part of an evening is the whole cut to it. */
import fc from 'fast-check';
import { expect, test } from 'vitest';
import { eveningCharts } from '../../shared-model/logbook/charts/evening-charts.ts';
import { retractedEntries } from '../../shared-model/logbook/pass.ts';
import { foldEvents } from '../../shared-model/session/fold.ts';
import { workedEvening } from './worked-evening.ts';

const { railroad, initial, events } = workedEvening;

const chartsOf = (from: number, to: number) =>
  eveningCharts(
    railroad,
    { from, to },
    foldEvents(
      initial,
      events.filter(({ at }) => at <= from),
    ),
    events.filter(({ at }) => at > from && at <= to),
    retractedEntries(events),
  );
const whole = eveningCharts(railroad, { from: 0, to: 130 }, initial, events, retractedEntries(events));

test('block 2 is pledged at the grant, lined when knob and turnout stand right, occupied at the report, open at the lifting off', () => {
  const ofTwo = whole.owned.filter(({ block }) => block === 'B2');
  const twelve = { block: 'B2', cab: '2', train: 't12' };
  const seven = { block: 'B2', cab: '2', train: 't7' };
  expect(ofTwo).toEqual([
    { ...twelve, state: 'pledged', from: 10, to: 26 },
    { ...twelve, state: 'lined', from: 26, to: 30 },
    { ...twelve, state: 'occupied', from: 30, to: 80 },
    // Knob 2 stands at Cab 2 already: T2 alone is thrown.
    { ...seven, state: 'pledged', from: 90, to: 97 },
    { ...seven, state: 'lined', from: 97, to: 100 },
    { ...seven, state: 'occupied', from: 100, to: 130 },
  ]);
});

test('the wait begins with the call and changes its cause when what it waited for is free', () => {
  const avery = { train: 't7', cab: '1', person: 'Avery' };
  expect(whole.waits).toEqual([
    { ...avery, thing: 'B2', block: 'B2', owner: 't12', from: 15, to: 80 },
    { ...avery, thing: null, block: null, owner: null, from: 80, to: 90 },
  ]);
});

test('a train stands until it is reported over a gap; from there on it is the other cab’s, and nothing more is known', () => {
  // No. 12 stands at gap g3, 4350 mm along; No. 7 at gap g1, 1800 mm along.
  expect(whole.lines).toEqual([
    {
      train: 't7',
      cab: '1',
      points: [
        { at: 3, distanceMm: 1800 },
        { at: 100, distanceMm: 1800 },
      ],
    },
    {
      train: 't12',
      cab: '2',
      points: [
        { at: 4, distanceMm: 4350 },
        { at: 30, distanceMm: 4350 },
      ],
    },
  ]);
});

test('refusals and alarms are marks, and each throw has its second', () => {
  expect(whole.marks.map(({ entry, at, outcome }) => [entry, at, outcome])).toEqual([
    [11, 20, 'refused'],
    [16, 40, 'alarm'],
    [24, 110, 'refused'],
  ]);
  expect(whole.throws).toEqual([5, 6, 24, 26, 97]);
});

test('the charts of a part are those of the whole, cut to it', () => {
  const cut = <Span extends { readonly from: number; readonly to: number }>(
    spans: readonly Span[],
    from: number,
    to: number,
  ) =>
    spans.flatMap((span) =>
      span.from < to && span.to > from
        ? [{ ...span, from: Math.max(span.from, from), to: Math.min(span.to, to) }]
        : [],
    );
  fc.assert(
    fc.property(fc.integer({ min: 0, max: 129 }), fc.integer({ min: 1, max: 130 }), (from, lasts) => {
      const to = Math.min(130, from + lasts);
      const part = chartsOf(from, to);
      // From the ask on: a call before it is known only with it.
      expect(cut(part.owned, from, to)).toEqual(cut(whole.owned, from, to));
      const asked = Math.max(from, 20);
      expect(cut(part.waits, asked, to)).toEqual(cut(whole.waits, asked, to));
      expect(part.throws).toEqual(whole.throws.filter((at) => at > from && at <= to));
    }),
    { seed: 5, numRuns: 60 },
  );
});
