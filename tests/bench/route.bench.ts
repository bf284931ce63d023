/** Routes on generated railroads of stations and single track, against ngraph.path on the same (edge, facing) states. */
import createGraph from 'ngraph.graph';
import { aStar } from 'ngraph.path';
import { type Bench, percentile, timed } from '../../build/bench-report.ts';
import { indexRailroad } from '../../shared-model/railroad/railroad.ts';
import { routesToBlock } from '../../shared-model/railroad/routes.ts';
import { chanceOf } from '../support/chance.ts';
import { plainPassages, stateName } from '../support/plain-passages.ts';
import { stoppingSpots } from '../support/random-railroad.ts';
import { stationRailroad } from '../support/station-railroad.ts';

const SIZES = [20, 60, 100, 200, 400];
const QUESTIONS = 300;
/** Every question is asked so often, and its best time counts: what others do on the machine only adds. */
const ROUNDS = 5;
const best = <T>(work: () => T): { readonly ms: number; readonly value: T } => {
  const all = Array.from({ length: ROUNDS }, () => timed(work));
  return all.reduce((least, one) => (one.ms < least.ms ? one : least));
};

function measure(blocks: number) {
  const document = stationRailroad(blocks, { blocks, trains: 10, ring: true });
  const railroad = indexRailroad(document);
  const graph = createGraph<unknown, { lengthMm: number }>();
  for (const { from, to, lengthMm } of plainPassages(document)) graph.addLink(from, to, { lengthMm });
  const finder = aStar(graph, { oriented: true, distance: (_a, _b, link) => link.data.lengthMm });
  const spots = stoppingSpots(railroad);
  const chance = chanceOf(blocks);
  const ours: number[] = [];
  const theirs: number[] = [];
  const five: number[] = [];
  // A first round warms both up and is not counted.
  for (let question = -QUESTIONS; question < QUESTIONS; question += 1) {
    const from = chance.pick(spots);
    const to = chance.pick(document.blocks).id;
    const route = best(() => routesToBlock(railroad, from, to));
    const found = route.value[0];
    const last = found?.edges.at(-1);
    if (found === undefined || last === undefined || found.edges.length < 2) continue;
    // They are given the one end that is the nearest; we look for it among all far ends of the block.
    const goal = railroad.edges
      .get(last)
      ?.between.map((node) => stateName(last, node))
      .filter((name) => spots.some((spot) => stateName(spot.edge, spot.toward) === name))
      .map((name) => best(() => finder.find(stateName(from.edge, from.toward), name)))
      .filter(({ value }) => value.length > 1)
      .sort((one, other) => one.value.length - other.value.length)[0];
    if (goal === undefined) continue;
    const alternatives = timed(() => routesToBlock(railroad, from, to, { alternatives: 5 }));
    if (question < 0) continue;
    ours.push(route.ms);
    theirs.push(goal.ms);
    five.push(alternatives.ms);
  }
  return { ours, theirs, five };
}

const sum = (list: readonly number[]): number => list.reduce((total, one) => total + one, 0);

export const run: Bench = (report) => {
  report.about('routes: the best one, and five alternatives; baseline ngraph.path to the nearest goal state');
  const all = SIZES.map((blocks) => ({ blocks, ...measure(blocks) }));
  report.table(
    all.map(({ blocks, ours, theirs, five }) => ({
      blocks,
      questions: ours.length,
      'p50 ms': percentile(ours, 50),
      'p95 ms': percentile(ours, 95),
      'ngraph p50': percentile(theirs, 50),
      'ngraph p95': percentile(theirs, 95),
      'times ngraph': sum(ours) / sum(theirs),
      'five p50': percentile(five, 50),
      'five p95': percentile(five, 95),
    })),
  );
  const [small, large] = [all[0], all.at(-1)];
  if (small === undefined || large === undefined) return;
  report.says(
    `  growth from ${small.blocks} to ${large.blocks} blocks: ${(percentile(large.ours, 50) / percentile(small.ours, 50)).toFixed(1)} times`,
  );
  for (const percent of [50, 95])
    report.mustReach(
      `routes at ${large.blocks} blocks, p${percent} in times of that of ngraph.path`,
      percentile(large.ours, percent) / percentile(large.theirs, percent),
      { atMost: 1 },
    );
};
