/** What lies under a train, worked out by hand on the passing siding: e1 1800, e2 300, e3 2400, e4 250, e5 2000 mm. */
import { describe, expect, test } from 'vitest';
import type { EdgeId, NodeId } from '../../shared-model/ids.ts';
import { indexRailroad } from '../../shared-model/railroad/railroad.ts';
import type { Spot } from '../../shared-model/railroad/travel.ts';
import { layBack, underTrain } from '../../shared-model/railroad/under-train.ts';
import { passingSidingExample } from '../support/example.ts';
import { plainNodes, smallRailroad, turnout } from '../support/line-of-track.ts';

const at = (text: string): Spot => {
  const [edge = '', toward = ''] = text.split(':');
  return { edge: edge as EdgeId, toward: toward as NodeId };
};
const names = (trail: readonly Spot[] | undefined) => trail?.map(({ edge, toward }) => `${edge}:${toward}`);
const railroad = indexRailroad(passingSidingExample);
const allNormal = () => 'normal' as const;
const allReverse = () => 'reverse' as const;

describe('underTrain', () => {
  const trail = ['e5:g3', 'e4:g2', 'e2:T1', 'e1:g1'].map(at);

  test('takes edges from the head back while what lies ahead of them is shorter than the train', () => {
    expect(names(underTrain(railroad, trail, 1999))).toEqual(['e5:g3']);
    expect(names(underTrain(railroad, trail, 2001))).toEqual(['e5:g3', 'e4:g2']);
    expect(names(underTrain(railroad, trail, 9000))).toEqual(['e5:g3', 'e4:g2', 'e2:T1', 'e1:g1']);
  });

  test('a tail exactly at a gap is clear of it', () => {
    expect(names(underTrain(railroad, trail, 2000))).toEqual(['e5:g3']);
  });

  test('the edge of the head is always under the train', () => {
    expect(names(underTrain(railroad, trail, 0))).toEqual(['e5:g3']);
    expect(underTrain(railroad, [], 500)).toEqual([]);
  });
});

describe('layBack', () => {
  test('follows the turnouts as they stand, every spot facing as the train does', () => {
    expect(names(layBack(railroad, at('e7:g4'), 2800, allNormal))).toEqual(['e7:g4', 'e3:T2', 'e2:T1']);
    expect(names(layBack(railroad, at('e7:g4'), 2800, allReverse))).toEqual([
      'e7:g4',
      'e6:T2',
      'e5:g3',
      'e4:g2',
    ]);
  });

  test('does not fit over an end of track', () => {
    expect(names(layBack(railroad, at('e1:g1'), 1800, allNormal))).toEqual(['e1:g1']);
    expect(layBack(railroad, at('e1:g1'), 1801, allNormal)).toBeUndefined();
  });

  test('does not fit over a turnout that is set against it', () => {
    expect(names(layBack(railroad, at('e5:g3'), 2300, allReverse))).toEqual(['e5:g3', 'e4:g2', 'e2:T1']);
    expect(layBack(railroad, at('e5:g3'), 2300, allNormal)).toBeUndefined();
    expect(names(layBack(railroad, at('e5:g3'), 2250, allNormal))).toEqual(['e5:g3', 'e4:g2']);
  });

  test('does not fit on its own head, nor on dead track', () => {
    const loop = smallRailroad({
      nodes: [...plainNodes('g1', 'g2', 'n1'), turnout('T1', 'b', 'a', 'd')],
      edges: [
        ['a', 'T1', 'g1', 500],
        ['b', 'g2', 'T1', 500],
        ['c', 'g1', 'g2', 500],
        ['d', 'T1', 'n1', 500],
      ],
      blocks: { A: 'a' },
    });
    expect(layBack(loop, at('a:g1'), 1000, allNormal)).toEqual([at('a:g1'), at('b:T1')]);
    expect(layBack(loop, at('a:g1'), 1001, allNormal)).toBeUndefined();
    expect(layBack(loop, at('c:g2'), 100, allNormal)).toBeUndefined();
    const whole = smallRailroad({
      nodes: plainNodes('g1', 'j1'),
      edges: [
        ['a', 'j1', 'g1', 500],
        ['b', 'g1', 'j1', 500],
      ],
      blocks: { A: 'a' },
    });
    expect(names(layBack(whole, at('a:g1'), 1000, allNormal))).toEqual(['a:g1', 'b:j1']);
    expect(layBack(whole, at('a:g1'), 1001, allNormal)).toBeUndefined();
  });
});
