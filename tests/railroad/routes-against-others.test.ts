/** Routes over random railroads, against a path finder from npm and against trying every walk. */
import fc from 'fast-check';
import createGraph from 'ngraph.graph';
import { aStar } from 'ngraph.path';
import { describe, expect, test } from 'vitest';
import type { BlockId } from '../../shared-model/ids.ts';
import type { RailroadDocument } from '../../shared-model/railroad/document.ts';
import { indexRailroad, type Railroad } from '../../shared-model/railroad/railroad.ts';
import { routesToBlock } from '../../shared-model/railroad/routes.ts';
import type { Spot } from '../../shared-model/railroad/travel.ts';
import { allWalks, plainGoals, plainPassages, stateName } from '../support/plain-passages.ts';
import { anyRailroad, randomRailroad, stoppingSpots } from '../support/random-railroad.ts';

interface Question {
  readonly document: RailroadDocument;
  readonly railroad: Railroad;
  readonly from: Spot;
  readonly to: BlockId;
}

const question = (document: RailroadDocument, start: number, target: number): Question | undefined => {
  const railroad = indexRailroad(document);
  const spots = stoppingSpots(railroad);
  const from = spots[start % Math.max(1, spots.length)];
  const to = document.blocks[target % Math.max(1, document.blocks.length)]?.id;
  return from === undefined || to === undefined ? undefined : { document, railroad, from, to };
};

const anyQuestion = fc
  .tuple(anyRailroad, fc.nat({ max: 999 }), fc.nat({ max: 999 }))
  .map(([document, start, target]) => question(document, start, target))
  .filter((asked) => asked !== undefined);

/** The least distance to any goal, by ngraph.path; the origin is a node of its own, so that a way may come round to it. */
function shortestByNgraph({ document, railroad, from, to }: Question): number {
  const graph = createGraph<unknown, { lengthMm: number }>();
  const origin = stateName(from.edge, from.toward);
  for (const passage of plainPassages(document)) {
    graph.addLink(passage.from, passage.to, { lengthMm: passage.lengthMm });
    if (passage.from === origin) graph.addLink('origin', passage.to, { lengthMm: passage.lengthMm });
  }
  const goals = plainGoals(document, railroad.edgesOfBlock.get(to) ?? []);
  for (const goal of goals) graph.addLink(goal, 'goal', { lengthMm: 0 });
  if (graph.getNode('origin') === undefined || graph.getNode('goal') === undefined)
    return Number.POSITIVE_INFINITY;
  const finder = aStar(graph, { oriented: true, distance: (_a, _b, link) => link.data.lengthMm });
  const path = finder.find('origin', 'goal').reverse();
  if (path.length === 0) return Number.POSITIVE_INFINITY;
  return path.slice(1).reduce((sum, node, index) => {
    const before = path[index];
    return (
      sum + (before === undefined ? 0 : (graph.getLink(before.id, node.id)?.data.lengthMm ?? Number.NaN))
    );
  }, 0);
}

describe('against ngraph.path 1.6.1 on expanded states', () => {
  test('the best route is as short as its path, and there is none where it finds none', () => {
    let found = 0;
    fc.assert(
      fc.property(anyQuestion, (asked) => {
        const expected = shortestByNgraph(asked);
        const [route] = routesToBlock(asked.railroad, asked.from, asked.to);
        if (route === undefined) expect(expected).toBe(Number.POSITIVE_INFINITY);
        else {
          found += 1;
          expect(route.lengthMm).toBeCloseTo(expected, 6);
        }
      }),
      { numRuns: 600, seed: 20_251_125 },
    );
    expect(found).toBeGreaterThan(200);
  });

  test('on a railroad of some 400 blocks, too', () => {
    const document = randomRailroad(7, 480);
    expect(document.blocks.length).toBeGreaterThan(350);
    for (let n = 0; n < 20; n += 1) {
      const asked = question(document, n * 37, n * 53);
      if (asked === undefined) throw new Error('expected a railroad with blocks and gaps');
      const [route] = routesToBlock(asked.railroad, asked.from, asked.to);
      expect(route?.lengthMm ?? Number.POSITIVE_INFINITY).toBeCloseTo(shortestByNgraph(asked), 6);
    }
  });
});

describe('against trying every walk', () => {
  const smallQuestion = fc
    .tuple(
      fc.nat({ max: 1_000_000 }),
      fc.integer({ min: 1, max: 9 }),
      fc.nat({ max: 999 }),
      fc.nat({ max: 999 }),
    )
    .map(([seed, size, start, target]) => question(randomRailroad(seed, size), start, target))
    .filter((asked) => asked !== undefined);

  const walksOf = ({ document, railroad, from, to }: Question, avoid: BlockId | undefined) =>
    allWalks(
      document,
      from,
      plainGoals(document, railroad.edgesOfBlock.get(to) ?? []),
      (edge) => avoid === undefined || railroad.blockOfEdge.get(edge) !== avoid,
      20_000,
    );

  test('the six best routes are the six best walks, in order, ties and all', () => {
    let several = 0;
    fc.assert(
      fc.property(smallQuestion, (asked) => {
        const walks = walksOf(asked, undefined);
        if (walks === undefined) return;
        const routes = routesToBlock(asked.railroad, asked.from, asked.to, { alternatives: 6 });
        if (routes.length > 1) several += 1;
        expect(routes.map((route) => route.edges)).toEqual(walks.slice(0, 6).map((walk) => walk.edges));
      }),
      { numRuns: 800, seed: 1971 },
    );
    expect(several).toBeGreaterThan(50);
  });

  test('with one setting for each turnout, the best walks that have one', () => {
    let longerThanPlain = 0;
    fc.assert(
      fc.property(smallQuestion, (asked) => {
        const walks = walksOf(asked, undefined);
        if (walks === undefined) return;
        const options = { alternatives: 4, oneSetting: true };
        const routes = routesToBlock(asked.railroad, asked.from, asked.to, options);
        const expected = walks.filter((walk) => walk.oneSetting).slice(0, 4);
        if (walks[0] !== undefined && walks[0] !== expected[0]) longerThanPlain += 1;
        expect(routes.map((route) => route.edges)).toEqual(expected.map((walk) => walk.edges));
      }),
      { numRuns: 3000, seed: 1972 },
    );
    expect(longerThanPlain).toBeGreaterThan(10);
  });

  test('avoiding a block, the best walks that do not enter it', () => {
    fc.assert(
      fc.property(smallQuestion, fc.nat({ max: 99 }), (asked, number) => {
        const avoid = asked.document.blocks[number % asked.document.blocks.length]?.id;
        const walks = walksOf(asked, avoid);
        if (walks === undefined || avoid === undefined) return;
        const options = { alternatives: 3, avoid: new Set([avoid]) };
        const routes = routesToBlock(asked.railroad, asked.from, asked.to, options);
        expect(routes.map((route) => route.edges)).toEqual(walks.slice(0, 3).map((walk) => walk.edges));
      }),
      { numRuns: 400, seed: 1973 },
    );
  });
});

describe('every route on a random railroad', () => {
  test('is made of legal passages, adds up, and its stretches are its edges cut at the changes of block', () => {
    fc.assert(
      fc.property(anyQuestion, fc.nat({ max: 2 }), ({ document, railroad, from, to }, reversals) => {
        const legal = new Set(plainPassages(document).map((passage) => `${passage.from} ${passage.to}`));
        for (const route of routesToBlock(railroad, from, to, { alternatives: 3, reversals })) {
          const names = route.spots.map(({ edge, toward }) => stateName(edge, toward));
          names.slice(1).forEach((name, index) => {
            const reversed = route.spots[index]?.edge === route.spots[index + 1]?.edge;
            if (!reversed) expect(legal.has(`${names[index]} ${name}`)).toBe(true);
          });
          expect(route.reversals.length).toBeLessThanOrEqual(reversals);
          expect(route.stretches.flatMap((stretch) => stretch.spots)).toEqual(route.spots);
          expect(route.blocks).toEqual(route.stretches.map((stretch) => stretch.block));
          route.blocks.slice(1).forEach((block, index) => {
            expect(block).not.toBe(route.blocks[index]);
          });
          const entered = route.edges.slice(1).map((edge) => railroad.edges.get(edge)?.length ?? 0);
          expect(route.lengthMm).toBe(entered.reduce((sum, length) => sum + length, 0));
          expect(route.edges.length).toBe(route.spots.length - route.reversals.length);
        }
      }),
      { numRuns: 300, seed: 1974 },
    );
  });
});
