/** Distance on the chart is to scale: the slope of a line is the speed of its train, and lines go on from row to row where they can. */
import fc from 'fast-check';
import { describe, expect, it } from 'vitest';
import { measureBlock } from '../../../shared-model/planning/chart/block-measure.ts';
import { chartJumps, chartOf } from '../../../shared-model/planning/chart/chart-model.ts';
import { evenRows, rowsToScale } from '../../../shared-model/planning/chart/row-heights.ts';
import { rowLayout } from '../../../shared-model/planning/chart/row-layout.ts';
import { planTiming } from '../../../shared-model/planning/timing.ts';
import type { Spot } from '../../../shared-model/railroad/travel.ts';
import { modelSpeed } from '../../../shared-model/units.ts';
import { demo, SCREEN_OPTIONS, threeTrains, threeTrainsPlan } from '../../support/three-trains.ts';

const situation = threeTrains();
const plan = threeTrainsPlan();
const timing = planTiming(demo, situation, plan, SCREEN_OPTIONS);
const chart = chartOf(demo, plan, timing, []);
const stays = (train: string) => timing.blocks.filter((stay) => stay.train === train);
const over = (...spots: readonly string[]): readonly Spot[] =>
  spots.map((written) => {
    const [edge, toward] = written.split(' ');
    return { edge, toward } as Spot;
  });

describe('the distance axis', () => {
  it('has each head go as fast as its train goes: millimetres of its row by seconds', () => {
    for (const { train, pieces } of chart.lines) {
      const mph = situation.trains.find(({ id }) => id === train)?.mph ?? 0;
      const speed = modelSpeed(mph, demo.document.scaleRatio);
      const moving = pieces.flatMap((piece) =>
        piece.slice(1).map((after, index) => ({ before: piece[index] ?? after, after })),
      );
      const runs = moving.filter(({ before, after }) => Math.abs(after.row - before.row) > 1e-6);
      expect(runs.length).toBeGreaterThanOrEqual(3);
      for (const { before, after } of runs) {
        const lengthMm = chart.lengthsMm[Math.floor((before.row + after.row) / 2)] ?? 0;
        const ran = Math.abs(after.row - before.row) * lengthMm;
        expect(ran / (after.at - before.at)).toBeCloseTo(speed, 6);
      }
    }
  });

  it('lets a line jump only where its way goes on in a row that lies elsewhere, or branches off inside a block', () => {
    const jumps = chartJumps(chart);
    const joints = chart.lines.reduce((sum, { pieces }) => sum + pieces.length - 1, 0);
    expect(joints).toBe(timing.blocks.length - chart.lines.length);
    expect(jumps.length).toBeLessThanOrEqual(4);
    for (const { from, to } of jumps) expect(to.at).toBeCloseTo(from.at, 6);
  });

  it('of one train alone has no jump at all: its way is the axis', () => {
    for (const train of ['t3', 't12', 't24']) {
      const way = stays(train);
      const { rows, through } = rowLayout(demo, [way]);
      expect(rows).toHaveLength(new Set(way.map(({ block }) => block)).size);
      const ends = way.map((stay) =>
        (through.get(stay) ?? [0, 0]).map((share) => share + rows.indexOf(stay.block)),
      );
      ends.slice(1).forEach(([begins], index) => {
        expect(begins).toBeCloseTo(ends[index]?.[1] ?? -1, 9);
      });
    }
  });

  it('is the same however the starts are dragged', () => {
    const later = plan.moves.map((move) => ({ ...move, start: move.start + 7, end: move.end + 7 }));
    const moved = { ...plan, moves: later };
    const again = chartOf(demo, moved, planTiming(demo, situation, moved, SCREEN_OPTIONS), []);
    expect(again.rows).toEqual(chart.rows);
    expect(again.lengthsMm).toEqual(chart.lengthsMm);
  });
});

describe('a block', () => {
  const [first, second] = stays('t3')[1]?.over ?? [];
  const whole = [first, second].flatMap((spot) => spot ?? []);
  const mm = (edge: string | undefined): number => demo.edges.get(edge as never)?.length ?? 0;

  it('is as long as its longest passage; a train that runs against it runs from its end to its beginning', () => {
    const back = [...whole].reverse().map(({ edge, toward }): Spot => {
      const [one, other] = demo.edges.get(edge)?.between ?? [toward, toward];
      return { edge, toward: one === toward ? other : one };
    });
    const { lengthMm, passages } = measureBlock(demo, [whole, back]);
    expect(lengthMm).toBe(mm(first?.edge) + mm(second?.edge));
    expect(passages).toEqual([
      { fromMm: 0, tillMm: lengthMm },
      { fromMm: lengthMm, tillMm: 0 },
    ]);
  });

  it('has a train that comes in by a branch on the spot where the branch comes in', () => {
    // Bay: the main comes in at its end, the quarry's track at its turnout.
    const bay = [...stays('t3'), ...stays('t12')].filter(({ block }) => block === 'B1');
    const { lengthMm, passages } = measureBlock(
      demo,
      bay.map((stay) => stay.over),
    );
    expect(lengthMm).toBe(2600);
    expect(passages).toEqual([
      { fromMm: 0, tillMm: 2600 },
      { fromMm: 1440, tillMm: 2600 },
    ]);
  });

  it('with two ways that share no track has both from its beginning', () => {
    const { lengthMm, passages } = measureBlock(demo, [over('e11 g1'), over('e32 n1')]);
    expect(passages.map(({ fromMm }) => fromMm)).toEqual([0, 0]);
    expect(lengthMm).toBe(Math.max(mm('e11'), mm('e32')));
  });
});

describe('the rows', () => {
  it('to scale: as tall as they are long, but for the short ones, of which a quarter at most is drawn taller', () => {
    const lengths = fc.array(fc.integer({ min: 50, max: 9000 }), { minLength: 1, maxLength: 40 });
    fc.assert(
      fc.property(lengths, fc.integer({ min: 0, max: 900 }), (mms, room) => {
        const { tops, stretched } = rowsToScale(mms, 20, room);
        const heights = tops.slice(1).map((top, row) => top - (tops[row] ?? 0));
        const exact = heights.flatMap((height, row) =>
          stretched[row] === true ? [] : [height / (mms[row] ?? 1)],
        );
        expect(Math.max(...exact) - Math.min(...exact)).toBeLessThan(1e-9);
        expect(stretched.filter((is) => is).length).toBeLessThanOrEqual(mms.length / 4);
        for (const height of heights) expect(height).toBeGreaterThanOrEqual(20 - 1e-6);
        for (const [row, is] of stretched.entries())
          if (is) expect(heights[row] ?? 0).toBeGreaterThan((mms[row] ?? 0) * (exact[0] ?? 0));
        expect(tops.at(-1) ?? 0).toBeGreaterThanOrEqual(room - 1e-3);
      }),
      { seed: 7, numRuns: 200 },
    );
  });

  it('give a part of a row its place in the row', () => {
    const { yOf, tops } = rowsToScale([1000, 3000], 20, 400);
    expect(tops.map(Math.round)).toEqual([0, 100, 400]);
    expect([0, 0.5, 1, 1.5, 2].map((row) => Math.round(yOf(row)))).toEqual([0, 50, 100, 250, 400]);
    expect([0, 1.5, 3].map(evenRows(3, 30).yOf)).toEqual([0, 45, 90]);
  });
});
