/** Plans on generated railroads: how soon the first one is there, how many are solved, and how far above the lower bound. Baseline: one fixed priority order. */
import { performance } from 'node:perf_hooks';
import { type Bench, percentile } from '../../build/bench-report.ts';
import { drawsFrom } from '../../shared-model/chance.ts';
import { planFaults } from '../../shared-model/planning/checker/check-plan.ts';
import { USUAL_OPTIONS } from '../../shared-model/planning/plan/options.ts';
import { planTask } from '../../shared-model/planning/plan/plan-task.ts';
import { plan } from '../../shared-model/planning/plan.ts';
import { safe } from '../../shared-model/planning/safe.ts';
import { inOneOrder } from '../../shared-model/planning/safe-state/prioritized.ts';
import { type StationCase, stationCases } from './station-cases.ts';

const SIZES: readonly (readonly [blocks: number, trains: number])[] = [
  [20, 2],
  [20, 4],
  [60, 5],
  [100, 8],
  [200, 10],
  [400, 10],
  [400, 20],
];
const CASES = 20;
const LIMIT_MS = 2000;
const MUST = { blocks: 400, trains: 10, firstMs: 100, percent: 98 };

function solve({ railroad, situation, seed }: StationCase) {
  const begin = performance.now();
  let firstMs = Number.POSITIVE_INFINITY;
  const answer = plan(railroad, situation, USUAL_OPTIONS, {
    draw: drawsFrom(seed),
    shouldStop: () => performance.now() - begin > LIMIT_MS,
    onBetter: () => {
      firstMs = Math.min(firstMs, performance.now() - begin);
    },
  });
  const isGood =
    answer.verdict !== 'planned' || planFaults(railroad, situation, answer, USUAL_OPTIONS).length === 0;
  // What no order of runs can do is not feasible; what nobody decided counts as if it were.
  const isFeasible = answer.verdict === 'planned' || safe(railroad, situation).verdict !== 'gridlock';
  return { answer, firstMs, isGood, isFeasible };
}

/** One order of priority, the longest way first, and no second try. */
function isSolvedByOneOrder({ railroad, situation }: StationCase): boolean {
  const task = planTask(railroad, situation, USUAL_OPTIONS);
  return inOneOrder({ movers: task.movers, resources: task.table.resources });
}

function measure(blocks: number, trains: number) {
  const cases = stationCases(blocks, trains, CASES);
  const results = cases.map(solve);
  const feasible = results.filter(({ isFeasible }) => isFeasible);
  const planned = feasible.filter(({ answer }) => answer.verdict === 'planned');
  return {
    blocks,
    trains,
    feasible: feasible.length,
    solved: (planned.length / feasible.length) * 100,
    byOneOrder: (cases.filter(isSolvedByOneOrder).length / feasible.length) * 100,
    firstMs: planned.map(({ firstMs }) => firstMs),
    overBound: planned.map(({ answer }) => (answer.total ?? 0) / Math.max(1e-9, answer.lowerBound ?? 0)),
    faulty: results.filter(({ isGood }) => !isGood).length,
  };
}

export const run: Bench = (report) => {
  report.about(`plan: ${CASES} cases a size, ${LIMIT_MS} ms each; baseline one fixed priority order`);
  measure(20, 2);
  const rows = SIZES.map(([blocks, trains]) => measure(blocks, trains));
  report.table(
    rows.map(({ blocks, trains, feasible, solved, byOneOrder, firstMs, overBound }) => ({
      blocks,
      trains,
      feasible,
      'solved %': solved,
      'one order %': byOneOrder,
      'first p50 ms': percentile(firstMs, 50),
      'first p95 ms': percentile(firstMs, 95),
      'over bound p50': percentile(overBound, 50),
      'over bound p95': percentile(overBound, 95),
    })),
  );
  const faulty = rows.reduce((sum, row) => sum + row.faulty, 0);
  report.mustReach('plans in which the checker finds a fault', faulty, { atMost: 0 });
  for (const { blocks, trains, solved, firstMs } of rows)
    if (blocks === MUST.blocks && trains === MUST.trains) {
      report.mustReach(`p95 to the first plan at ${blocks} blocks, ms`, percentile(firstMs, 95), {
        atMost: MUST.firstMs,
      });
      report.mustReach(`feasible cases solved at ${blocks} blocks, of a hundred`, solved, {
        atLeast: MUST.percent,
      });
    }
};
