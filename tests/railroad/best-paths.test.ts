/** k best paths on a published example. */
import { expect, test } from 'vitest';
import { bestPaths } from '../../shared-model/railroad/best-paths.ts';
import { pathLength } from '../../shared-model/railroad/path-order.ts';
import { makeWayGraph, type Step } from '../../shared-model/railroad/way-graph.ts';

/**
 * The usual teaching example of Yen's algorithm (Management Science 17(11), 1971; design reference published-values, W1):
 * C>D3 C>E2 D>F4 E>D1 E>F2 E>G3 F>G2 F>H1 G>H2. All simple paths from C to H were counted by hand there.
 */
const NAMES = ['C', 'D', 'E', 'F', 'G', 'H'];
const LINKS = ['CD3', 'CE2', 'DF4', 'ED1', 'EF2', 'EG3', 'FG2', 'FH1', 'GH2'];

const graph = makeWayGraph(
  NAMES.map((name, from) =>
    LINKS.filter((link) => link.startsWith(name)).map((link): Step => {
      const to = NAMES.indexOf(link.charAt(1));
      return { from, to, length: Number(link.charAt(2)), rank: to, lever: null };
    }),
  ),
  NAMES.map((_, state) => state),
);

const best = (count: number) =>
  bestPaths(
    { graph, origin: 0, goals: new Set([NAMES.indexOf('H')]), isOpen: () => true },
    { count, oneSetting: false, settled: new Map() },
  ).map((path) => `C${path.map((step) => NAMES[step.to]).join('')} ${pathLength(path)}`);

test('the three best paths are those of the published example', () => {
  expect(best(3)).toEqual(['CEFH 5', 'CEGH 7', 'CDFH 8']);
});

test('asked for eight, it gives the seven that there are, ties in the order of their names', () => {
  expect(best(8)).toEqual(['CEFH 5', 'CEGH 7', 'CDFH 8', 'CEDFH 8', 'CEFGH 8', 'CDFGH 11', 'CEDFGH 11']);
});

test('every smaller count gives the beginning of the same list', () => {
  const all = best(8);
  for (let count = 1; count <= 7; count += 1) expect(best(count)).toEqual(all.slice(0, count));
});
