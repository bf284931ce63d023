/** Safe states: agreement with an exhaustive search on small cases, and how many are decided at which size. Baseline: a plain breadth-first joint search. */
import { type Bench, percentile } from '../../build/bench-report.ts';
import { demoRailroad } from '../../shared-model/demo/railroad.ts';
import { witnessFault } from '../../shared-model/planning/checker/check-witness.ts';
import { lookAhead } from '../../shared-model/planning/look-ahead.ts';
import { safe } from '../../shared-model/planning/safe.ts';
import { indexRailroad } from '../../shared-model/railroad/railroad.ts';
import { chanceOf } from '../support/chance.ts';
import { plainSafe } from '../support/plain-safe.ts';
import { plainRailroad } from '../support/plain-situation.ts';
import { randomRailroad } from '../support/random-railroad.ts';
import { randomSituation } from '../support/random-situation.ts';
import { stationCases } from './station-cases.ts';
import { workWatch } from './work-time.ts';

const SMALL_CASES = 10_000;
/** Joint standings of the exhaustive search; a case with more is not small. */
const MOST_STATES = 3000;
const SIZES: readonly (readonly [blocks: number, trains: number])[] = [
  [20, 2],
  [20, 4],
  [60, 5],
  [60, 8],
  [100, 8],
  [200, 10],
  [400, 10],
  [400, 20],
];
const CASES = 12;
const MUST = { blocks: 60, trains: 5, cases: 100, percent: 99, ms: 1000 };
const LOOKS = 300;
const LOOK_MS = 50;
/** The baseline gives up after so many joint standings. */
const BASELINE_STATES = 800;

function worked<T>(work: () => T): { readonly ms: number; readonly value: T } {
  const watch = workWatch();
  const value = work();
  return { ms: watch(), value };
}

function agreement() {
  const counts = { compared: 0, safe: 0, gridlock: 0, undecided: 0, 'too large': 0, wrong: 0 };
  for (let seed = 1; counts.compared < SMALL_CASES; seed += 1) {
    const document = randomRailroad(seed, 3 + (seed % 12));
    const railroad = indexRailroad(document);
    const made = randomSituation(railroad, chanceOf(seed * 7 + 1), {
      trains: 2 + (seed % 4),
      parkedInHundred: 15,
      reversalsInHundred: 40,
      reachable: seed % 2 === 0,
      knobs: seed % 3 === 0,
    });
    if (made === null) continue;
    const truth = plainSafe(plainRailroad(document), made.json, MOST_STATES);
    if (truth === null) {
      counts['too large'] += 1;
      continue;
    }
    const { verdict, witness } = safe(railroad, made.situation);
    counts.compared += 1;
    counts[verdict] += 1;
    const isWrong =
      verdict === 'safe'
        ? !truth.safe || witnessFault(railroad, made.situation, witness ?? []) !== null
        : verdict === 'gridlock' && truth.safe;
    if (isWrong) counts.wrong += 1;
  }
  return counts;
}

function bySize(blocks: number, trains: number, count: number) {
  const cases = stationCases(blocks, trains, count);
  const taken = cases.map(({ railroad, situation, document, json }) => ({
    ours: worked(() => safe(railroad, situation)),
    plain: worked(() => plainSafe(plainRailroad(document), json, BASELINE_STATES)),
  }));
  const decided = taken.filter(({ ours }) => ours.value.verdict !== 'undecided' && ours.ms <= MUST.ms);
  return {
    cases: cases.length,
    decided: decided.length,
    safe: taken.filter(({ ours }) => ours.value.verdict === 'safe').length,
    plainDecided: taken.filter(({ plain }) => plain.value !== null).length,
    ms: taken.map(({ ours }) => ours.ms),
    plainMs: taken.map(({ plain }) => plain.ms),
  };
}

/** Random evenings on the demo railroad, each train with somewhere to end up, as the session asks when an order is judged. */
function lookingAhead() {
  const railroad = indexRailroad(demoRailroad);
  const asked = Array.from({ length: LOOKS }, (_, index) =>
    randomSituation(railroad, chanceOf(index + 1), { trains: 2 + (index % 6), parkedInHundred: 20 }),
  ).filter((made) => made !== null);
  return asked.map(({ situation }) => {
    const trains = situation.trains.map(({ id, lengthMm, trail, blocks, to }) => ({
      train: id,
      lengthMm,
      trail,
      head: trail[0] ?? null,
      blocks,
      beyond: [],
      to,
    }));
    return worked(() => lookAhead(railroad, { trains, cuts: [] }));
  });
}

export const run: Bench = (report) => {
  report.about(
    `safe: ${SMALL_CASES} random small situations against an exhaustive search by a second reading`,
  );
  const counts = agreement();
  report.table([counts]);
  report.mustReach('verdicts that differ, or witnesses that fail', counts.wrong, { atMost: 0 });
  report.about(
    `safe: by size; decided within ${MUST.ms} ms; baseline breadth first, at most ${BASELINE_STATES} joint standings`,
  );
  bySize(20, 2, 20);
  const rows = SIZES.map(([blocks, trains]) => {
    const isMust = blocks === MUST.blocks && trains === MUST.trains;
    const size = bySize(blocks, trains, isMust ? MUST.cases : CASES);
    return { blocks, trains, ...size, isMust };
  });
  report.table(
    rows.map(({ blocks, trains, cases, decided, safe: safeOnes, plainDecided, ms, plainMs }) => ({
      blocks,
      trains,
      cases,
      'decided %': (decided / cases) * 100,
      'safe %': (safeOnes / cases) * 100,
      'p50 ms': percentile(ms, 50),
      'p95 ms': percentile(ms, 95),
      'worst ms': Math.max(...ms),
      'plain decided %': (plainDecided / cases) * 100,
      'plain p50': percentile(plainMs, 50),
      'plain p95': percentile(plainMs, 95),
    })),
  );
  const msOf = (size: number): number => percentile(rows.find(({ blocks }) => blocks === size)?.ms ?? [], 50);
  report.says(`  growth from 20 to 400 blocks: ${(msOf(400) / msOf(20)).toFixed(1)} times`);
  report.about(`look-ahead: ${LOOKS} random situations of two to seven trains on the demo railroad`);
  lookingAhead();
  const looks = lookingAhead();
  const looksMs = looks.map(({ ms }) => ms);
  const share = (verdict: string): number =>
    (looks.filter(({ value }) => value.verdict === verdict).length / looks.length) * 100;
  report.table([
    {
      'safe %': share('safe'),
      'gridlock %': share('gridlock'),
      'not decided %': share('undecided'),
      'p50 ms': percentile(looksMs, 50),
      'p95 ms': percentile(looksMs, 95),
      'worst ms': Math.max(...looksMs),
    },
  ]);
  report.mustReach('a look ahead at the size of the demo, at worst, ms', Math.max(...looksMs), {
    atMost: LOOK_MS,
  });
  for (const { isMust, decided, cases } of rows)
    if (isMust)
      report.mustReach(
        `decided at ${MUST.blocks} blocks and ${MUST.trains} trains within ${MUST.ms} ms, of a hundred`,
        (decided / cases) * 100,
        { atLeast: MUST.percent },
      );
};
