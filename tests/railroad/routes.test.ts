/** Routes on small railroads, every length and setting worked out by hand. */
import { describe, expect, test } from 'vitest';
import type { BlockId, EdgeId, NodeId } from '../../shared-model/ids.ts';
import { indexRailroad } from '../../shared-model/railroad/railroad.ts';
import type { Route } from '../../shared-model/railroad/route.ts';
import { routesToBlock, routesToEdge } from '../../shared-model/railroad/routes.ts';
import type { Spot } from '../../shared-model/railroad/travel.ts';
import { passingSidingExample } from '../support/example.ts';
import { plainNodes, smallRailroad, turnout } from '../support/line-of-track.ts';

const at = (text: string): Spot => {
  const [edge = '', toward = ''] = text.split(':');
  return { edge: edge as EdgeId, toward: toward as NodeId };
};
const block = (id: string) => id as BlockId;
const way = (route: Route | undefined): string => route?.edges.join(' ') ?? 'none';
const settings = (list: Route['turnouts']): string =>
  list.map(({ id, position }) => `${id} ${position}`).join(', ');

const siding = indexRailroad(passingSidingExample);

describe('on the passing siding of the design', () => {
  test('the shortest way to the east end is along the main: 300 + 2400 + 300 + 1800 mm', () => {
    const [route] = routesToBlock(siding, at('e1:g1'), block('B4'));
    expect(way(route)).toBe('e1 e2 e3 e7 e8');
    expect(route?.lengthMm).toBe(4800);
    expect(route?.blocks).toEqual(['B1', 'B2', 'B4']);
    expect(settings(route?.turnouts ?? [])).toBe('T1 normal, T2 normal');
    expect(route?.stretches.map((stretch) => stretch.gap)).toEqual([null, 'g1', 'g4']);
  });

  test('the other way leads through the siding, and passes the block of the main twice', () => {
    const [, route, none] = routesToBlock(siding, at('e1:g1'), block('B4'), { alternatives: 5 });
    expect(way(route)).toBe('e1 e2 e4 e5 e6 e7 e8');
    expect(route?.lengthMm).toBe(300 + 250 + 2000 + 250 + 300 + 1800);
    expect(route?.stretches.map(({ block: id, gap, turnouts }) => [id, gap, settings(turnouts)])).toEqual([
      ['B1', null, ''],
      ['B2', 'g1', 'T1 reverse'],
      ['B3', 'g2', ''],
      ['B2', 'g3', 'T2 reverse'],
      ['B4', 'g4', ''],
    ]);
    expect(none).toBeUndefined();
  });

  test('a route to a block ends at its nearest far end: of the main, the gap before the siding', () => {
    const [route] = routesToBlock(siding, at('e1:g1'), block('B2'));
    expect(route?.spots.at(-1)).toEqual({ edge: 'e4', toward: 'g2' });
    expect(route?.lengthMm).toBe(550);
  });

  test('a route to an edge ends with it, and where it leaves it no train could stop there is none', () => {
    expect(way(routesToEdge(siding, at('e1:g1'), 'e7' as EdgeId)[0])).toBe('e1 e2 e3 e7');
    expect(routesToEdge(siding, at('e1:g1'), 'e3' as EdgeId)).toEqual([]);
    expect(routesToEdge(siding, at('e8:g4'), 'e7' as EdgeId)).toEqual([]);
  });

  test('a place has to be left at its own end', () => {
    const [east] = routesToEdge(siding, at('e1:g1'), 'e5' as EdgeId, {}, 'g3' as NodeId);
    expect(way(east)).toBe('e1 e2 e4 e5');
    expect(routesToEdge(siding, at('e1:g1'), 'e5' as EdgeId, {}, 'g2' as NodeId)).toEqual([]);
  });

  test('blocks to avoid are not entered', () => {
    expect(way(routesToBlock(siding, at('e1:g1'), block('B4'), { avoid: new Set([block('B2')]) })[0])).toBe(
      'none',
    );
    const around = routesToBlock(siding, at('e1:g1'), block('B4'), {
      avoid: new Set([block('B3')]),
      alternatives: 3,
    });
    expect(around.map(way)).toEqual(['e1 e2 e3 e7 e8']);
  });

  test('a block that has to be passed on the way leads through the siding', () => {
    const [route] = routesToBlock(siding, at('e1:g1'), block('B4'), { via: [block('B3')] });
    expect(way(route)).toBe('e1 e2 e4 e5 e6 e7 e8');
    expect(routesToBlock(siding, at('e1:g1'), block('B4'), { via: [block('B3'), block('B1')] })).toEqual([]);
  });

  test('where the train stands does not count as passed', () => {
    expect(routesToBlock(siding, at('e1:g1'), block('B4'), { via: [block('B1')] })).toEqual([]);
  });

  test('what an authority still has ahead keeps its turnouts', () => {
    const settled = [{ id: 'T1' as NodeId, position: 'reverse' as const }];
    expect(way(routesToBlock(siding, at('e1:g1'), block('B4'), { settled })[0])).toBe('e1 e2 e4 e5 e6 e7 e8');
  });

  test('a train at a far end of a block without a way round has no route to it', () => {
    expect(routesToBlock(siding, at('e1:g1'), block('B1'))).toEqual([]);
  });
});

describe('around a loop', () => {
  const loop = smallRailroad({
    nodes: plainNodes('g1', 'g2', 'j1'),
    edges: [
      ['a', 'g1', 'g2', 1000],
      ['b', 'g2', 'j1', 700],
      ['c', 'j1', 'g1', 800],
    ],
    blocks: { A: 'a', B: 'c' },
  });

  test('a train that stands at the far end of its block goes all the way round to stand there again', () => {
    const [route] = routesToBlock(loop, at('a:g2'), block('A'));
    expect(way(route)).toBe('a b c a');
    expect(route?.lengthMm).toBe(2500);
    expect(route?.blocks).toEqual(['A', 'B', 'A']);
  });

  test('one gap alone does not make two blocks: the train goes round within one', () => {
    const one = smallRailroad({
      nodes: plainNodes('g1', 'j1'),
      edges: [
        ['a', 'g1', 'j1', 1000],
        ['b', 'j1', 'g1', 500],
      ],
      blocks: { A: 'a' },
    });
    const [route] = routesToBlock(one, at('b:g1'), block('A'));
    expect(way(route)).toBe('b a b');
    expect(route?.blocks).toEqual(['A']);
    expect(route?.stretches).toHaveLength(1);
  });
});

/**
 * n1 -e0- T3 -e1- g1 -e2- T1: a balloon e3 g2 e5 T2 e6 g3 e4 back to T1; from T2 a long way e9 g4 e10 home to T3.
 * Back at n1 by the balloon is 300+500+500+500+500+300+1000+1000 = 4600 mm with T1 in both settings;
 * by the long way 300+500+500+5000+300+1000 = 7600 mm.
 */
const balloon = smallRailroad({
  nodes: [
    ...plainNodes('n1', 'g1', 'g2', 'g3', 'g4'),
    turnout('T1', 'e2', 'e3', 'e4'),
    turnout('T2', 'e5', 'e6', 'e9'),
    turnout('T3', 'e0', 'e1', 'e10'),
  ],
  edges: [
    ['e0', 'n1', 'T3', 1000],
    ['e1', 'T3', 'g1', 1000],
    ['e2', 'g1', 'T1', 300],
    ['e3', 'T1', 'g2', 500],
    ['e5', 'g2', 'T2', 500],
    ['e6', 'T2', 'g3', 500],
    ['e4', 'g3', 'T1', 500],
    ['e9', 'T2', 'g4', 5000],
    ['e10', 'g4', 'T3', 300],
  ],
  blocks: { Home: 'e0', Throat: 'e2', Loop: 'e5' },
});

describe('where the shortest way needs a turnout in both settings', () => {
  test('the plain route goes round the balloon, and says both settings', () => {
    const [route] = routesToBlock(balloon, at('e1:g1'), block('Home'));
    expect(route?.lengthMm).toBe(4600);
    expect(settings(route?.turnouts ?? [])).toBe('T1 normal, T2 normal, T1 reverse, T3 normal');
  });

  test('a move takes the shortest of the ways that need each turnout in one setting', () => {
    const routes = routesToBlock(balloon, at('e1:g1'), block('Home'), { oneSetting: true, alternatives: 9 });
    expect(routes.map(way)).toEqual(['e1 e2 e3 e5 e9 e10 e0']);
    expect(routes[0]?.lengthMm).toBe(7600);
  });

  test('and none, where the authority ahead has settled the turnout the other way', () => {
    const settled = [{ id: 'T1' as NodeId, position: 'reverse' as const }];
    const options = { oneSetting: true, settled };
    expect(routesToBlock(balloon, at('e1:g1'), block('Home'), options)).toEqual([]);
  });
});

/** A main n1 g1 T1 g2 n2, and a spur that trails into it at T1: to get in, a train runs past, clears T1 and backs up. */
const spur = smallRailroad({
  nodes: [...plainNodes('n1', 'g1', 'g2', 'n2', 'g3', 'n3'), turnout('T1', 'e3', 'e2', 'e4')],
  edges: [
    ['e1', 'n1', 'g1', 2200],
    ['e2', 'g1', 'T1', 200],
    ['e3', 'T1', 'g2', 400],
    ['e5', 'g2', 'n2', 1500],
    ['e4', 'T1', 'g3', 250],
    ['e6', 'g3', 'n3', 900],
  ],
  blocks: { West: 'e1', Middle: 'e3', East: 'e5', Spur: 'e6' },
});

describe('with reversals', () => {
  const toSpur = (trainLengthMm: number, reversals = 1) =>
    routesToBlock(spur, at('e1:g1'), block('Spur'), { reversals, trainLengthMm })[0];

  test('none is made unless the caller asks for it', () => {
    expect(toSpur(300, 0)).toBeUndefined();
  });

  test('a short train stops at the first gap behind the turnout, 400 mm past it', () => {
    const route = toSpur(400);
    expect(way(route)).toBe('e1 e2 e3 e4 e6');
    expect(route?.lengthMm).toBe(200 + 400 + 250 + 900);
    expect(route?.reversals).toEqual([{ edge: 'e3', toward: 'g2' }]);
    expect(settings(route?.turnouts ?? [])).toBe('T1 normal, T1 reverse');
    expect(route?.spots).toHaveLength(6);
  });

  test('a longer train goes on until the whole of it is clear of the turnout', () => {
    const route = toSpur(401);
    expect(way(route)).toBe('e1 e2 e3 e5 e3 e4 e6');
    expect(route?.lengthMm).toBe(200 + 400 + 1500 + 400 + 250 + 900);
    expect(route?.reversals).toEqual([{ edge: 'e5', toward: 'n2' }]);
  });

  test('a train that is longer than the track behind the turnout cannot', () => {
    expect(toSpur(1900)?.reversals).toHaveLength(1);
    expect(toSpur(1901)).toBeUndefined();
  });

  test('a change of ends is not yet a way to the other end of the block: an edge has to be entered', () => {
    expect(routesToBlock(spur, at('e5:n2'), block('East'), { reversals: 1 }).map(way)).toEqual([]);
    const [route] = routesToBlock(spur, at('e5:n2'), block('East'), { reversals: 2 });
    expect(way(route)).toBe('e5 e3 e2 e3 e5');
  });
});

describe('over an insulated crossing', () => {
  const slip = smallRailroad({
    nodes: [
      ...plainNodes('n0', 'g1', 'n2', 'n3', 'n4'),
      {
        id: 'X1',
        kind: 'crossing',
        ways: [
          ['e1', 'e2'],
          ['e3', 'e4'],
        ],
        insulated: true,
        slips: [['e1', 'e4']],
      },
    ],
    edges: [
      ['e0', 'n0', 'g1', 900],
      ['e1', 'g1', 'X1', 300],
      ['e2', 'X1', 'n2', 800],
      ['e3', 'n3', 'X1', 700],
      ['e4', 'X1', 'n4', 600],
    ],
    blocks: { Lead: 'e0', One: 'e1', Other: 'e3' },
  });

  test('a slip leads into the block of the other way, and the crossing is its gap', () => {
    const [route] = routesToBlock(slip, at('e0:g1'), block('Other'));
    expect(way(route)).toBe('e0 e1 e4');
    expect(route?.stretches.map(({ block: id, gap, turnouts }) => [id, gap, settings(turnouts)])).toEqual([
      ['Lead', null, ''],
      ['One', 'g1', 'X1 reverse'],
      ['Other', 'X1', ''],
    ]);
  });

  test('along its way the crossing has to stand normal', () => {
    expect(settings(routesToBlock(slip, at('e0:g1'), block('One'))[0]?.turnouts ?? [])).toBe('X1 normal');
  });

  test('no way leads from the other half of the crossing over the slip', () => {
    expect(routesToBlock(slip, at('e3:X1'), block('One'))).toEqual([]);
  });
});

describe('ties', () => {
  const tied = (edges: readonly [string, string]) =>
    smallRailroad({
      nodes: [
        ...plainNodes('n1', 'g1', 'g2', 'n2'),
        turnout('T1', 'a', edges[0], edges[1]),
        turnout('T2', 'z', edges[0], edges[1]),
      ],
      edges: [
        ['s', 'n1', 'g1', 100],
        ['a', 'g1', 'T1', 100],
        [edges[0], 'T1', 'T2', 500],
        [edges[1], 'T1', 'T2', 500],
        ['z', 'T2', 'g2', 100],
        ['t', 'g2', 'n2', 100],
      ],
      blocks: { S: 's', M: 'a', T: 't' },
    });

  test('of two ways of equal length the one with fewer passages in reverse comes first, whatever its edges are called', () => {
    const routes = routesToBlock(tied(['y', 'b']), at('s:g1'), block('T'), { alternatives: 3 });
    expect(routes.map(way)).toEqual(['s a y z t', 's a b z t']);
  });

  test('then the edge ids decide, as strings: e10 before e9', () => {
    const diamond = smallRailroad({
      nodes: [
        ...plainNodes('n1', 'g1', 'g2', 'n2'),
        turnout('T1', 'a', 'e9', 'e10'),
        turnout('T2', 'z', 'e10', 'e9'),
      ],
      edges: [
        ['s', 'n1', 'g1', 100],
        ['a', 'g1', 'T1', 100],
        ['e9', 'T1', 'T2', 500],
        ['e10', 'T1', 'T2', 500],
        ['z', 'T2', 'g2', 100],
        ['t', 'g2', 'n2', 100],
      ],
      blocks: { S: 's', M: 'a', T: 't' },
    });
    const routes = routesToBlock(diamond, at('s:g1'), block('T'), { alternatives: 3 });
    expect(routes.map(way)).toEqual(['s a e10 z t', 's a e9 z t']);
  });
});

test('dead track is not entered', () => {
  const dead = smallRailroad({
    nodes: plainNodes('n1', 'g1', 'g2', 'n2'),
    edges: [
      ['a', 'n1', 'g1', 500],
      ['b', 'g1', 'g2', 500],
      ['c', 'g2', 'n2', 500],
    ],
    blocks: { A: 'a', C: 'c' },
  });
  expect(routesToBlock(dead, at('a:g1'), block('C'))).toEqual([]);
  expect(routesToBlock(dead, at('b:g2'), block('C'))).toEqual([]);
});
