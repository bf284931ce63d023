/** Starts dragged about: the conflicts of the chart are the checker's, and where two bars overlap the checker says so. */
import fc from 'fast-check';
import { describe, expect, it } from 'vitest';
import { type Chart, chartOf, conflictMarks } from '../../../shared-model/planning/chart/chart-model.ts';
import { clockText, timeTicks } from '../../../shared-model/planning/chart/chart-ticks.ts';
import { rowsAlongTheWays } from '../../../shared-model/planning/chart/row-order.ts';
import { planFaults } from '../../../shared-model/planning/checker/check-plan.ts';
import { draggedStart } from '../../../shared-model/planning/rehearsal/drag-move.ts';
import { planTiming } from '../../../shared-model/planning/timing.ts';
import { demo, SCREEN_OPTIONS, threeTrains, threeTrainsPlan } from '../../support/three-trains.ts';

const situation = threeTrains();
const plan = threeTrainsPlan();

function charted(dragged: Pick<typeof plan, 'moves' | 'throws' | 'total'>) {
  const timing = planTiming(demo, situation, dragged, SCREEN_OPTIONS);
  const faults = planFaults(demo, situation, dragged, SCREEN_OPTIONS);
  return { faults, timing, chart: chartOf(demo, dragged, timing, faults) };
}

/** Blocks in which the bars of two trains overlap, the margin behind the first counted. */
function overlapping({ bars }: Chart): ReadonlySet<string> {
  return new Set(
    bars.flatMap((bar) =>
      bars
        .filter((other) => other.train !== bar.train && other.block === bar.block)
        .filter((other) => bar.headIn <= other.headIn && other.headIn < bar.till - 0.01)
        .map(({ block }) => block),
    ),
  );
}

describe('the chart of a plan', () => {
  it('of a good plan has no conflict, and no two trains in one row at once', () => {
    const { chart } = charted(plan);
    expect(chart.conflicts).toEqual([]);
    expect([...overlapping(chart)]).toEqual([]);
    expect(chart.hands).toHaveLength(plan.throws.length);
    expect(chart.voice).toHaveLength(plan.moves.length);
    expect(chart.handsLoad.reduce((sum, count) => sum + count, 0)).toBe(plan.throws.length);
  });

  it('after any drags shows the conflicts of the checker, all of them, at their blocks', () => {
    const drag = fc.record({ move: fc.nat(plan.moves.length - 1), start: fc.integer({ min: 0, max: 200 }) });
    fc.assert(
      fc.property(fc.array(drag, { minLength: 1, maxLength: 3 }), (drags) => {
        let now: Pick<typeof plan, 'moves' | 'throws' | 'total'> = plan;
        for (const { move, start } of drags) now = draggedStart(now, move, start, charted(now).timing);
        const { chart, faults } = charted(now);
        expect(chart.conflicts.map(({ fault }) => fault)).toEqual(faults);
        expect(faults.filter(({ says }) => says.startsWith('the arrivals'))).toEqual([]);
        const apart = faults.filter(({ about }) => about.filter((id) => /^t\d/.test(id)).length === 2);
        const said = new Set(
          apart.flatMap(({ about }) => about.filter((id) => chart.rows.includes(id as never))),
        );
        for (const block of overlapping(chart)) expect(said).toContain(block);
        for (const { rows, fault } of chart.conflicts)
          expect(rows.map((row) => chart.rows[row])).toEqual(
            fault.about.filter((id) => chart.rows.includes(id as never)),
          );
      }),
      { seed: 7, numRuns: 60 },
    );
  });

  it('has each head on its line where its bars say that it comes in', () => {
    const { chart } = charted(plan);
    for (const { train, pieces } of chart.lines) {
      const points = pieces.flat();
      for (const [before, after] of points.slice(1).map((point, index) => [points[index], point] as const))
        expect(after.at).toBeGreaterThanOrEqual((before?.at ?? 0) - 1e-9);
      for (const bar of chart.bars.filter((one) => one.train === train && one.headIn > 0))
        expect(
          points.some(
            ({ at, row }) => Math.abs(at - bar.headIn) < 1e-6 && row >= bar.row && row <= bar.row + 1,
          ),
        ).toBe(true);
    }
  });

  it('can be taken hold of at each start, on the line of its train, and marks what is wrong once', () => {
    const { chart } = charted(plan);
    expect(chart.starts.map(({ at }) => at)).toEqual(plan.moves.map(({ start }) => start));
    for (const { train, row } of chart.starts) {
      const rows = chart.bars.filter((bar) => bar.train === train).map((bar) => bar.row);
      expect(rows.some((at) => row >= at && row <= at + 1)).toBe(true);
    }
    const wrong = charted(draggedStart(plan, 1, 0, charted(plan).timing)).chart;
    const marks = conflictMarks(wrong);
    expect(new Set(marks.map(({ key }) => key)).size).toBe(marks.length);
    expect(new Set(marks.flatMap(({ faults }) => faults)).size).toBe(
      wrong.conflicts.filter(({ rows }) => rows.length > 0).length,
    );
  });
});

describe('a dragged start', () => {
  it('takes the later moves of its train and their throws along, and nothing of the others', () => {
    const index = plan.moves.findIndex(({ train }) => train === 't24');
    const move = plan.moves[index];
    const later = draggedStart(plan, index, (move?.start ?? 0) + 30, charted(plan).timing);
    later.moves.forEach((other, place) => {
      const by = other.start - (plan.moves[place]?.start ?? 0);
      expect(by).toBeCloseTo(
        other.train === 't24' && (plan.moves[place]?.start ?? 0) >= (move?.start ?? 0) ? 30 : 0,
        3,
      );
    });
    expect(later.total).toBeCloseTo((plan.total ?? 0) + 30, 2);
    expect(draggedStart(plan, index, move?.start ?? 0, charted(plan).timing)).toMatchObject({
      total: plan.total,
    });
  });
});

describe('rows and ticks', () => {
  it('lay the blocks of a way beside each other, and what is new beside its neighbour', () => {
    expect(
      rowsAlongTheWays([
        ['a', 'b', 'c', 'd'],
        ['x', 'b', 's', 'c'],
      ]),
    ).toEqual(['a', 'x', 'b', 's', 'c', 'd']);
    expect(rowsAlongTheWays([['p'], ['a', 'b', 'a']])).toEqual(['a', 'b', 'p']);
  });
  it('mark the time at round numbers', () => {
    expect(timeTicks(61, 8)).toEqual([0, 10, 20, 30, 40, 50, 60]);
    expect(timeTicks(400, 8)).toEqual([0, 60, 120, 180, 240, 300, 360]);
    expect([clockText(127), clockText(-5), clockText(59.6)]).toEqual(['2:07', '-0:05', '1:00']);
  });
});
