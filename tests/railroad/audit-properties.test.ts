/** The audit on random railroads: none is faulted as made, and a fault planted anywhere is found and named. */
import fc from 'fast-check';
import { describe, expect, test } from 'vitest';
import { audit } from '../../shared-model/railroad/audit.ts';
import { type RailroadDocument, railroadDocument } from '../../shared-model/railroad/document.ts';
import { indexRailroad } from '../../shared-model/railroad/railroad.ts';
import { plainPassages, stateName } from '../support/plain-passages.ts';
import { anyRailroad } from '../support/random-railroad.ts';

const codesOf = (document: RailroadDocument) => new Set(audit(document).map((finding) => finding.code));

test('a random railroad as made has no error', () => {
  fc.assert(
    fc.property(anyRailroad, (document) => {
      expect(audit(document).filter((finding) => finding.severity === 'error')).toEqual([]);
    }),
    { numRuns: 300, seed: 1 },
  );
});

/** What a gap parts when it is closed: the two blocks at it. */
const closed = (document: RailroadDocument, gap: string): RailroadDocument => ({
  ...document,
  nodes: document.nodes.map((node) =>
    node.id === gap && node.kind === 'gap' ? { ...node, kind: 'joint' } : node,
  ),
});

describe('planted faults', () => {
  test('a gap left out between two blocks: two-sources names both, and the place lies on the track it names', () => {
    let planted = 0;
    fc.assert(
      fc.property(anyRailroad, fc.nat({ max: 999 }), (document, number) => {
        const railroad = indexRailroad(document);
        const parting = document.nodes.filter((node) => {
          const blocks = (railroad.edgesAt.get(node.id) ?? []).map((edge) => railroad.blockOfEdge.get(edge));
          return node.kind === 'gap' && blocks[0] !== blocks[1];
        });
        const gap = parting[number % Math.max(1, parting.length)];
        if (gap === undefined) return;
        planted += 1;
        const [one, other] = railroad.edgesAt.get(gap.id) ?? [];
        const [finding, more] = audit(closed(document, gap.id)).filter(({ code }) => code === 'two-sources');
        const blocks = [one, other].map((edge) => (edge === undefined ? '' : railroad.blockOfEdge.get(edge)));
        expect(finding?.about).toEqual(expect.arrayContaining(blocks));
        expect(more).toBeUndefined();
        // Other gaps may part the same two blocks, so the track need not lead over the gap that was closed; but it joins the two.
        const track = finding?.about.slice(2) ?? [];
        const sides = new Set(track.map((edge) => railroad.blockOfEdge.get(edge as never)));
        expect(sides).toEqual(new Set(blocks));
      }),
      { numRuns: 300, seed: 2 },
    );
    expect(planted).toBeGreaterThan(200);
  });

  test('a feeder taken off: dead-track names the very edges of the section', () => {
    fc.assert(
      fc.property(anyRailroad, fc.nat({ max: 999 }), (document, number) => {
        const railroad = indexRailroad(document);
        const block = document.blocks[number % document.blocks.length];
        if (block === undefined) return;
        const without = document.blocks.map((one) => (one.id === block.id ? { ...one, feeders: [] } : one));
        const [finding, more] = audit({ ...document, blocks: without }).filter(
          ({ code }) => code === 'dead-track',
        );
        expect(finding?.about).toEqual(railroad.edgesOfBlock.get(block.id));
        expect(more).toBeUndefined();
      }),
      { numRuns: 200, seed: 3 },
    );
  });

  test('a feeder put on a second section: split-block, and two-sources there', () => {
    fc.assert(
      fc.property(anyRailroad, fc.nat({ max: 999 }), (document, number) => {
        const [first, ...rest] = document.blocks;
        const other = rest[number % Math.max(1, rest.length)];
        if (first === undefined || other === undefined) return;
        const feeders = [...first.feeders, ...other.feeders];
        const blocks = document.blocks.map((one) => (one.id === first.id ? { ...one, feeders } : one));
        const codes = codesOf({ ...document, blocks });
        expect([...codes]).toEqual(expect.arrayContaining(['split-block', 'two-sources']));
      }),
      { numRuns: 200, seed: 4 },
    );
  });

  test('any edge taken away breaks references, and only those are told', () => {
    fc.assert(
      fc.property(anyRailroad, fc.nat({ max: 999 }), (document, number) => {
        const gone = document.edges[number % document.edges.length];
        const edges = document.edges.filter((edge) => edge !== gone);
        expect(codesOf(railroadDocument.parse({ ...document, edges }))).toEqual(
          new Set(['broken-reference']),
        );
      }),
      { numRuns: 200, seed: 5 },
    );
  });
});

/** Whether some edge can be come back over in the other facing, by plain flooding from every state. */
function turnsRound(document: RailroadDocument): boolean {
  const onward = new Map<string, string[]>();
  for (const { from, to } of plainPassages(document)) onward.set(from, [...(onward.get(from) ?? []), to]);
  return document.edges.some(({ id, between: [a, b] }) =>
    (
      [
        [a, b],
        [b, a],
      ] as const
    ).some(([facing, back]) => {
      const reached = new Set([stateName(id, facing)]);
      for (const state of reached) for (const next of onward.get(state) ?? []) reached.add(next);
      return reached.has(stateName(id, back));
    }),
  );
}

test('a reversing section is told just when some edge can be come back over facing the other way', () => {
  let turning = 0;
  fc.assert(
    fc.property(anyRailroad, (document) => {
      const expected = turnsRound(document);
      if (expected) turning += 1;
      expect(codesOf(document).has('reversing-section')).toBe(expected);
    }),
    { numRuns: 400, seed: 6 },
  );
  expect(turning).toBeGreaterThan(100);
  expect(turning).toBeLessThan(390);
});
