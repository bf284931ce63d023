/** Plans on generated railroads: how soon the first one is there, how many are solved, and how far above the lower bound. Baseline: one fixed priority order. */
import { type Bench, percentile } from '../../build/bench-report.ts';
import { drawsFrom } from '../../shared-model/chance.ts';
import { planFaults } from '../../shared-model/planning/checker/check-plan.ts';
import { USUAL_OPTIONS } from '../../shared-model/planning/plan/options.ts';
import { planTask } from '../../shared-model/planning/plan/plan-task.ts';
import { plan } from '../../shared-model/planning/plan.ts';
import type { PlanAnswer } from '../../shared-model/planning/plan-answer.ts';
import { safe } from '../../shared-model/planning/safe.ts';
import { inOneOrder } from '../../shared-model/planning/safe-state/prioritized.ts';
import { exactTotal } from '../support/exact-plan.ts';
import { plainRailroad } from '../support/plain-situation.ts';
import { SECOND_OPTIONS, SPEED, wholeCase } from '../support/whole-seconds.ts';
import { type StationCase, stationCases } from './station-cases.ts';
import { workWatch } from './work-time.ts';

const SIZES: readonly (readonly [blocks: number, trains: number])[] = [
  [20, 2],
  [20, 4],
  [60, 5],
  [100, 8],
  [200, 10],
  [400, 10],
  [400, 20],
];
const CASES = 12;
/** For a first plan, and after it for a better one. */
const FIRST_MS = 2000;
const BETTER_MS = 300;
const MUST = { blocks: 400, trains: 10, cases: 50, firstMs: 100, percent: 98, times: 1.03 };
/** Small cases whose least total is known by trying everything, and states of that. */
const KNOWN_SEEDS = 30;
const KNOWN_STATES = 20_000;
const KNOWN_PATIENCE = 3000;

function solve({ railroad, situation, seed, isFeasible }: StationCase) {
  const watch = workWatch();
  const told: { readonly answer: PlanAnswer; readonly ms: number }[] = [];
  const answer = plan(railroad, situation, USUAL_OPTIONS, {
    draw: drawsFrom(seed),
    shouldStop: () => watch() > (told[0] === undefined ? FIRST_MS : told[0].ms + BETTER_MS),
    onBetter: (better) => told.push({ answer: better, ms: watch() }),
  });
  const firstMs = told[0]?.ms ?? Number.POSITIVE_INFINITY;
  const isPlanned = answer.verdict === 'planned' && firstMs <= FIRST_MS;
  const faults = answer.verdict === 'planned' ? planFaults(railroad, situation, answer, USUAL_OPTIONS) : [];
  return {
    answer,
    firstMs,
    isPlanned,
    isGood: faults.length === 0,
    firstTotal: told[0]?.answer.total ?? 0,
    // What no order of runs can do is not feasible; what nobody decided counts as if it were.
    isFeasible: isFeasible || isPlanned || safe(railroad, situation).verdict !== 'gridlock',
  };
}

/** One order of priority, the longest way first, and no second try. */
function isSolvedByOneOrder({ railroad, situation }: StationCase): boolean {
  const task = planTask(railroad, situation, USUAL_OPTIONS);
  return inOneOrder({ movers: task.movers, resources: task.table.resources, memory: task.memory });
}

function measure(blocks: number, trains: number, count: number) {
  const cases = stationCases(blocks, trains, count);
  const feasible = cases
    .map((one) => ({ one, result: solve(one) }))
    .filter(({ result }) => result.isFeasible);
  const planned = feasible.map(({ result }) => result).filter(({ isPlanned }) => isPlanned);
  const bound = ({ answer }: (typeof planned)[number]): number => Math.max(1e-9, answer.lowerBound ?? 0);
  return {
    blocks,
    trains,
    feasible: feasible.length,
    solved: (planned.length / feasible.length) * 100,
    byOneOrder: (feasible.filter(({ one }) => isSolvedByOneOrder(one)).length / feasible.length) * 100,
    firstMs: planned.map(({ firstMs }) => firstMs),
    firstOver: planned.map((one) => one.firstTotal / bound(one)),
    bestOver: planned.map((one) => (one.answer.total ?? 0) / bound(one)),
    faulty: feasible.filter(({ result }) => !result.isGood).length,
  };
}

/** Totals in times of the least that any plan has, where that is known. */
function timesTheLeast(): readonly number[] {
  return Array.from({ length: KNOWN_SEEDS }, (_, index) => wholeCase(index + 1, 8, 2 + (index % 2))).flatMap(
    (one) => {
      if (one === null) return [];
      const { total } = plan(one.railroad, one.situation, SECOND_OPTIONS, {
        draw: drawsFrom(1),
        shouldStop: () => false,
        patience: KNOWN_PATIENCE,
      });
      if (total === null || total === 0) return [];
      const railroad = plainRailroad(one.document);
      const least = exactTotal(railroad, one.json, SECOND_OPTIONS, SPEED, total + 0.5, KNOWN_STATES);
      return least === null ? [] : [total / least];
    },
  );
}

export const run: Bench = (report) => {
  report.about(
    `plan: ${CASES} cases a size; ${FIRST_MS} ms for a first plan and ${BETTER_MS} ms more for a better one; baseline one fixed priority order on the track alone`,
  );
  report.says(
    '  the lower bound has every train alone and nothing to throw: it is the hands that a plan waits for',
  );
  measure(20, 2, CASES);
  measure(100, 8, CASES);
  const isMust = (blocks: number, trains: number): boolean =>
    blocks === MUST.blocks && trains === MUST.trains;
  const rows = SIZES.map(([blocks, trains]) =>
    measure(blocks, trains, isMust(blocks, trains) ? MUST.cases : CASES),
  );
  report.table(
    rows.map(({ blocks, trains, feasible, solved, byOneOrder, firstMs, firstOver, bestOver }) => ({
      blocks,
      trains,
      feasible,
      'solved %': solved,
      'one order %': byOneOrder,
      'first p50 ms': percentile(firstMs, 50),
      'first p95 ms': percentile(firstMs, 95),
      'first over bound p50': percentile(firstOver, 50),
      'best p50': percentile(bestOver, 50),
      'best p95': percentile(bestOver, 95),
    })),
  );
  const firstOf = (blocks: number): number =>
    percentile(rows.find((row) => row.blocks === blocks)?.firstMs ?? [], 50);
  report.says(
    `  growth of the first plan from 20 to 400 blocks: ${(firstOf(400) / firstOf(20)).toFixed(1)} times`,
  );
  const times = timesTheLeast();
  report.says(
    `  small cases whose least total is known: ${times.length}; plans at p50 ${percentile(times, 50)}, p95 ${percentile(times, 95)} times that`,
  );
  report.mustReach('worst total in times of the least, where that is known', Math.max(...times), {
    atMost: MUST.times,
  });
  const faulty = rows.reduce((sum, row) => sum + row.faulty, 0);
  report.mustReach('plans in which the checker finds a fault', faulty, { atMost: 0 });
  for (const { blocks, trains, solved, firstMs } of rows)
    if (isMust(blocks, trains)) {
      report.mustReach(
        `p95 to the first plan at ${blocks} blocks and ${trains} trains, ms`,
        percentile(firstMs, 95),
        {
          atMost: MUST.firstMs,
        },
      );
      report.mustReach(
        `feasible cases solved at ${blocks} blocks and ${trains} trains, of a hundred`,
        solved,
        {
          atLeast: MUST.percent,
        },
      );
    }
  report.says(
    `  largest memory of the whole process, all cases and their checks with it: ${Math.round(process.resourceUsage().maxRSS / 1024)} megabytes`,
  );
};
