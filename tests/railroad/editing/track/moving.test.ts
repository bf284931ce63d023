/** Track moved, copied, and selected by a rectangle; nodes drawn twice. */
import { describe, expect, test } from 'vitest';
import { brokenTrack } from '../../../../shared-model/railroad/broken-track.ts';
import { blankSheet, type DraftDocument } from '../../../../shared-model/railroad/editing/draft.ts';
import { drawEdge } from '../../../../shared-model/railroad/editing/draw-edge.ts';
import { joinEnds } from '../../../../shared-model/railroad/editing/join-ends.ts';
import {
  copyTrack,
  inRectangle,
  joinMet,
  moveTrack,
} from '../../../../shared-model/railroad/editing/move-track.ts';
import { openNode } from '../../../../shared-model/railroad/editing/open-ends.ts';
import type { Outcome } from '../../../../shared-model/railroad/editing/outcome.ts';
import { removeTrack } from '../../../../shared-model/railroad/editing/remove-track.ts';
import { cutEdge, mergeAt } from '../../../../shared-model/railroad/editing/split-edge.ts';
import { lineOf, trackOf } from '../../../../shared-model/railroad/editing/track.ts';
import { indexRailroad } from '../../../../shared-model/railroad/railroad.ts';
import { draftOf, drawn, drawnSiding, nodeAt, saysNo, turnoutOf } from '../../../support/drawn-siding.ts';
import { passingSidingExample } from '../../../support/example.ts';

const blank = blankSheet('Sheet');

describe('moving and copying', () => {
  test('a moved end joins what it meets', () => {
    const two = drawn(drawn(blank, 1, [0, 0], [4, 0]), 1, [5, 0], [9, 0]);
    const moved = moveTrack(two, new Set(['e2']), [-1, 0]);
    const joined = draftOf(joinMet(moved, new Set(['e2'])));
    expect(joined.nodes.map(({ kind }) => kind).sort()).toEqual(['end', 'end', 'joint']);
  });

  test('an end moved onto the middle of an edge joins it there', () => {
    const two = drawn(drawn(blank, 100, [0, 0], [10, 0]), 1, [5, 3], [9, 3]);
    const moved = moveTrack(two, new Set(['n3']), [0, -3]);
    expect(turnoutOf(draftOf(joinMet(moved, new Set(['n3'])))).at).toEqual([5, 0]);
  });

  test('a node moved onto a gap is refused, since no third edge can meet there', () => {
    const cut = drawn(draftOf(cutEdge(drawn(blank, 1, [0, 0], [10, 0]), 'e1', 0.5)), 1, [5, 3], [9, 3]);
    const end = nodeAt(cut, [5, 3]).id;
    expect(saysNo(joinMet(moveTrack(cut, new Set([end]), [0, -3]), new Set([end])))).toContain('one spot');
  });

  test('a copy has new ids, the same shape, and no wiring', () => {
    const { about } = copyTrack(passingSidingExample, new Set(['e2', 'e3', 'e4']), [0, 6]) as Outcome & {
      ok: true;
    };
    const copy = draftOf(copyTrack(passingSidingExample, new Set(['e2', 'e3', 'e4']), [0, 6]));
    expect(copy.blocks).toBe(passingSidingExample.blocks);
    expect(copy.edges.slice(8).map(({ length }) => length)).toEqual([300, 2400, 250]);
    expect(about.filter((id) => id.startsWith('e'))).toEqual(['e9', 'e10', 'e11']);
    expect(brokenTrack(copy)).toEqual([]);
    expect(turnoutOf({ ...copy, nodes: copy.nodes.slice(8) })).toMatchObject({ trunk: 'e9', normal: 'e10' });
  });

  test('a rectangle selects the nodes in it, and the edges with both ends in it', () => {
    expect(inRectangle(passingSidingExample, [-1, 1], [9, 3])).toEqual(['n1', 'g1', 'T1', 'e1', 'e2']);
  });
});

describe('a node drawn twice', () => {
  const ring = drawn(drawn(blank, 10, [0, 0], [4, 0]), 10, [4, 0], [2, 3], [0, 0]);
  const id = ring.nodes[0]?.id ?? '';
  const open = draftOf(openNode(ring, id, [9, 0]));
  const lines = (draft: DraftDocument) => draft.edges.map((edge) => lineOf(trackOf(draft), edge));

  test('stretches a loop out, and can be closed again', () => {
    expect(lines(open)[1]?.at(-1)).toEqual([9, 0]);
    expect(indexRailroad(open).sections).toEqual(indexRailroad(ring).sections);
    expect(draftOf(openNode(open, id, [0, 0]))).toEqual(ring);
  });

  test('stays as it is drawn when an edge at it is cut or removed', () => {
    for (const share of [0.1, 0.9])
      for (const edge of ['e1', 'e2']) {
        const cut = draftOf(cutEdge(open, edge, share));
        const ends = cut.edges.flatMap((one) => lineOf(trackOf(cut), one)).map(String);
        expect(ends).toContain('9,0');
        expect(ends).toContain('0,0');
        expect(lines(draftOf(mergeAt(cut, 'g1'))).map(String)).toEqual(lines(open).map(String));
      }
    const left = draftOf(removeTrack(open, new Set(['e1'])));
    expect(lines(left)[0]?.map(String)).toEqual(['4,0', '2,3', '9,0']);
  });

  test('is no place for a turnout', () => {
    expect(
      saysNo(
        drawEdge(
          open,
          [
            [9, 0],
            [9, 9],
          ],
          1,
        ),
      ),
    ).toContain('drawn twice');
    expect(saysNo(openNode(drawnSiding(), 'T1', [1, 1]))).toContain('only a joint or a gap');
  });
});

describe('two ends of track joined', () => {
  const ends = (draft: DraftDocument) => draft.nodes.filter(({ kind }) => kind === 'end').map(({ id }) => id);

  test('make a loop of one line, drawn as straight as before', () => {
    const line = drawn(blank, 1000, [0, 0], [20, 0]);
    const loop = draftOf(joinEnds(line, 'n1', 'n2'));
    expect(loop.nodes.map(({ kind, at, alsoAt }) => [kind, at, alsoAt])).toEqual([
      ['joint', [0, 0], [20, 0]],
      ['joint', [10, 0], undefined],
    ]);
    expect(loop.edges.map(({ length }) => length)).toEqual([500, 500]);
    expect(brokenTrack(loop)).toEqual([]);
    const track = trackOf(loop);
    expect(loop.edges.map((edge) => lineOf(track, edge).map(String).sort())).toEqual([
      ['0,0', '10,0'],
      ['10,0', '20,0'],
    ]);
  });

  test('make one piece of two, whichever of them comes first in the file', () => {
    const two = drawn(drawn(blank, 1, [0, 0], [4, 0]), 1, [10, 3], [14, 3]);
    for (const [one, other] of [
      ['n2', 'n3'],
      ['n3', 'n2'],
    ] as const) {
      const joined = draftOf(joinEnds(two, one, other));
      expect(indexRailroad(joined).sections).toHaveLength(1);
      const track = trackOf(joined);
      expect(joined.edges.map((edge) => lineOf(track, edge).map(String))).toEqual([
        ['0,0', '4,0'],
        ['10,3', '14,3'],
      ]);
    }
  });

  test('take the places with them that trains stop at', () => {
    const line = drawn(blank, 1000, [0, 0], [20, 0]);
    const place = { id: 'p1', name: 'Mill', order: 1, at: [{ edge: 'e1', toward: 'n2' }] } as never;
    const loop = draftOf(joinEnds({ ...line, places: [place] }, 'n1', 'n2'));
    expect(indexRailroad(loop).nodes.has(loop.places[0]?.at[0]?.toward as never)).toBe(true);
  });

  test('are refused unless both are ends', () => {
    expect(saysNo(joinEnds(drawnSiding(), 'T1', ends(drawnSiding())[0] ?? ''))).toContain(
      'two ends of track',
    );
  });
});
