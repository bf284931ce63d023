/** Gaps cut, made joints and taken away. */
import fc from 'fast-check';
import { describe, expect, test } from 'vitest';
import { blankSheet, type DraftDocument } from '../../../../shared-model/railroad/editing/draft.ts';
import type { Outcome } from '../../../../shared-model/railroad/editing/outcome.ts';
import { cutEdge, mergeAt, setJoin } from '../../../../shared-model/railroad/editing/split-edge.ts';
import { indexRailroad } from '../../../../shared-model/railroad/railroad.ts';
import { canonicalRailroad } from '../../../support/canonical-railroad.ts';
import { draftOf, drawn, saysNo } from '../../../support/drawn-siding.ts';
import { passingSidingExample } from '../../../support/example.ts';

const blank = blankSheet('Sheet');
const lengthOf = (draft: DraftDocument): number => draft.edges.reduce((sum, { length }) => sum + length, 0);

describe('gaps', () => {
  const wired: DraftDocument = {
    ...drawn(blank, 1000, [0, 0], [10, 0]),
    ...({
      blocks: [{ id: 'B1', name: 'One', source: { throttle: '1' }, feeders: [{ edge: 'e1' }] }],
      places: [{ id: 'p1', name: 'Mill', order: 1, at: [{ edge: 'e1', toward: 'n2' }] }],
    } as never as Pick<DraftDocument, 'blocks' | 'places'>),
  };

  test('cut an edge in two; the longer part keeps id and feeder, a place stays at its end', () => {
    const draft = draftOf(cutEdge(wired, 'e1', 0.7));
    expect(draft.edges.map(({ id, length }) => [id, length])).toEqual([
      ['e1', 700],
      ['e2', 300],
    ]);
    expect(draft.blocks[0]?.feeders).toEqual([{ edge: 'e1' }]);
    expect(draft.places[0]?.at).toEqual([{ edge: 'e2', toward: 'n2' }]);
    expect(indexRailroad(draft).sections.map(({ blocks }) => blocks)).toEqual([['B1'], []]);
  });

  test('made a joint let the block reach over it again', () => {
    const cut = draftOf(cutEdge(wired, 'e1', 0.7));
    const mended = draftOf(setJoin(cut, 'g1', 'joint'));
    expect(indexRailroad(mended).sections).toHaveLength(1);
    expect(saysNo(setJoin(mended, 'n1', 'gap'))).toContain('end of track');
  });

  test('taken away leave the edge as it was', () => {
    expect(draftOf(mergeAt(draftOf(cutEdge(wired, 'e1', 0.3)), 'g1'))).toEqual(wired);
  });

  test('a ring of two edges keeps both its nodes', () => {
    const ring = drawn(drawn(blank, 1, [0, 0], [4, 0]), 1, [4, 0], [2, 3], [0, 0]);
    expect(saysNo(mergeAt(ring, ring.nodes[0]?.id ?? ''))).toContain('it has to stay');
  });
});

test('cutting and mending a gap anywhere keeps the length of the track', () => {
  fc.assert(
    fc.property(fc.nat(7), fc.double({ min: 0, max: 1, noNaN: true }), (index, share) => {
      const edge = passingSidingExample.edges[index]?.id ?? '';
      const cut = cutEdge(passingSidingExample, edge, share) as Outcome & { ok: true };
      expect(lengthOf(cut.draft)).toBeCloseTo(lengthOf(passingSidingExample), 6);
      const mended = draftOf(mergeAt(cut.draft, cut.about[0] ?? ''));
      expect(canonicalRailroad(mended)).toBe(canonicalRailroad(passingSidingExample));
    }),
    { seed: 22, numRuns: 60 },
  );
});
