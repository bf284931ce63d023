/** Drawing edges: nodes join where they meet, and become what the edges at them make of them. */
import { describe, expect, test } from 'vitest';
import { blankSheet } from '../../../../shared-model/railroad/editing/draft.ts';
import { drawEdge } from '../../../../shared-model/railroad/editing/draw-edge.ts';
import { cutEdge } from '../../../../shared-model/railroad/editing/split-edge.ts';
import { swapLegs } from '../../../../shared-model/railroad/editing/track-acts.ts';
import { canonicalRailroad } from '../../../support/canonical-railroad.ts';
import { draftOf, drawn, drawnSiding, saysNo, turnoutOf } from '../../../support/drawn-siding.ts';
import { passingSidingExample } from '../../../support/example.ts';

const blank = blankSheet('Sheet');

describe('drawing', () => {
  test('an edge on a blank sheet has two ends of track', () => {
    const draft = drawn(blank, 1800, [0, 0], [6, 0]);
    expect(draft.edges).toEqual([{ id: 'e1', between: ['n1', 'n2'], length: 1800 }]);
    expect(draft.nodes.map(({ kind }) => kind)).toEqual(['end', 'end']);
  });

  test('two edges that meet make a joint', () => {
    const draft = drawn(drawn(blank, 1, [0, 0], [6, 0]), 1, [6, 0], [9, 0]);
    expect(draft.nodes.map(({ id, kind }) => [id, kind])).toEqual([
      ['n1', 'end'],
      ['j1', 'joint'],
      ['n3', 'end'],
    ]);
  });

  test('three make a turnout, whose trunk is where both ways are the straightest', () => {
    const draft = drawn(drawn(drawn(blank, 1, [6, 0], [12, 3]), 1, [0, 0], [6, 0]), 1, [6, 0], [12, 0]);
    expect(turnoutOf(draft)).toMatchObject({ id: 'T1', trunk: 'e2', normal: 'e3', reverse: 'e1' });
  });

  test('four make a crossing, whose ways are the straightest', () => {
    const star = [
      [0, 0],
      [6, 6],
      [6, 0],
      [0, 6],
    ] as const;
    const draft = star.reduce((sheet, end) => drawn(sheet, 1, [3, 3], end), blank);
    expect(draft.nodes.find(({ kind }) => kind === 'crossing')).toMatchObject({
      id: 'X1',
      ways: [
        ['e1', 'e2'],
        ['e3', 'e4'],
      ],
      insulated: false,
    });
  });

  test('a fifth edge is refused', () => {
    const star = [
      [0, 0],
      [6, 6],
      [6, 0],
      [0, 6],
    ] as const;
    const draft = star.reduce((sheet, end) => drawn(sheet, 1, [3, 3], end), blank);
    expect(
      saysNo(
        drawEdge(
          draft,
          [
            [3, 3],
            [3, 9],
          ],
          1,
        ),
      ),
    ).toContain('4 edges meet at X1 already');
  });

  test('from the middle of an edge, that edge is parted there in proportion', () => {
    const draft = drawn(drawn(blank, 1000, [0, 0], [10, 0]), 500, [4, 0], [8, 2]);
    expect(draft.edges.map(({ length }) => length)).toEqual([400, 600, 500]);
    expect(turnoutOf(draft).at).toEqual([4, 0]);
  });

  test('at a gap is refused with what to do', () => {
    const draft = draftOf(cutEdge(drawn(blank, 1, [0, 0], [10, 0]), 'e1', 0.5));
    expect(
      saysNo(
        drawEdge(
          draft,
          [
            [5, 0],
            [5, 5],
          ],
          1,
        ),
      ),
    ).toContain('make it a joint first');
  });

  test('an edge back to where it began is refused', () => {
    expect(
      saysNo(
        drawEdge(
          blank,
          [
            [0, 0],
            [3, 3],
            [0, 0],
          ],
          1,
        ),
      ),
    ).toContain('a loop needs two edges');
  });

  test('keeps its bends', () => {
    expect(drawn(blank, 1, [0, 0], [2, 2], [6, 2]).edges[0]?.shape).toEqual([[2, 2]]);
  });
});

test('the example passing siding drawn from a blank sheet is its track, but for ids and coordinates', () => {
  const { nodes, edges } = passingSidingExample;
  const track = { ...blankSheet('Passing siding'), nodes, edges };
  expect(canonicalRailroad(drawnSiding())).toBe(canonicalRailroad(track));
  expect(canonicalRailroad(draftOf(swapLegs(drawnSiding(), 'T1')))).not.toBe(canonicalRailroad(track));
});
