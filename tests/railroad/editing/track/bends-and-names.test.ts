/** Bends, lengths, names and ids; what is at a spot. */
import { describe, expect, test } from 'vitest';
import { blankSheet } from '../../../../shared-model/railroad/editing/draft.ts';
import { thingAtSpot } from '../../../../shared-model/railroad/editing/draw-edge.ts';
import { renameId } from '../../../../shared-model/railroad/editing/rename-id.ts';
import { addBend, moveBend, setLength } from '../../../../shared-model/railroad/editing/track-acts.ts';
import { canonicalRailroad } from '../../../support/canonical-railroad.ts';
import { draftOf, drawn, saysNo } from '../../../support/drawn-siding.ts';
import { passingSidingExample } from '../../../support/example.ts';

const blank = blankSheet('Sheet');

describe('bends, lengths and names', () => {
  const edge = drawn(blank, 1000, [0, 0], [10, 0]);

  test('a bend comes where it is nearest to the line, and can be moved and taken away', () => {
    const bent = draftOf(addBend(draftOf(addBend(edge, 'e1', [7, 2])), 'e1', [2, 1]));
    expect(bent.edges[0]?.shape).toEqual([
      [2, 1],
      [7, 2],
    ]);
    expect(draftOf(moveBend(bent, 'e1', 0, [3, 3])).edges[0]?.shape?.[0]).toEqual([3, 3]);
    expect(draftOf(moveBend(draftOf(moveBend(bent, 'e1', 0, null)), 'e1', 0, null))).toEqual(edge);
  });

  test('a length is more than 0 and at most 10 km', () => {
    expect(draftOf(setLength(edge, new Set(['e1']), 2400)).edges[0]?.length).toBe(2400);
    for (const wrong of [0, -1, Number.NaN, 1e8])
      expect(setLength(edge, new Set(['e1']), wrong).ok).toBe(false);
  });

  test('another id is known wherever the railroad names it', () => {
    const renamed = draftOf(renameId(draftOf(renameId(passingSidingExample, 'e3', 'main')), '1', 'red'));
    expect(renamed.blocks[1]?.feeders[0]?.edge).toBe('main');
    expect(renamed.selectors[0]?.positions).toContain('red');
    expect(canonicalRailroad(renamed)).toBe(canonicalRailroad(passingSidingExample));
    expect(saysNo(renameId(passingSidingExample, 'e3', 'K1'))).toContain(
      'in use already, among the selectors',
    );
    expect(saysNo(renameId(passingSidingExample, '1', 'off'))).toContain('selector position');
  });

  test('a spot is on a node before it is on an edge, and on nothing beyond its reach', () => {
    expect(thingAtSpot(edge, [0.2, 0])).toMatchObject({ is: 'node', node: { id: 'n1' } });
    expect(thingAtSpot(edge, [4, 0.2])).toMatchObject({ is: 'edge', edge: 'e1', share: 0.4 });
    expect(thingAtSpot(edge, [4, 1])).toBeNull();
  });
});
