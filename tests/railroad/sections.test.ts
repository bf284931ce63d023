/** Extents: what the gaps leave connected. */
import fc from 'fast-check';
import { expect, test } from 'vitest';
import { indexRailroad } from '../../shared-model/railroad/railroad.ts';
import { passingSidingExample } from '../support/example.ts';
import { plainExtent } from '../support/plain-passages.ts';
import { anyRailroad } from '../support/random-railroad.ts';

test('the passing siding has four sections: the main reaches to both gaps of the siding', () => {
  const railroad = indexRailroad(passingSidingExample);
  expect(railroad.sections.map((section) => [section.blocks.join(), section.edges.join()])).toEqual([
    ['B1', 'e1'],
    ['B2', 'e2,e3,e4,e6,e7'],
    ['B3', 'e5'],
    ['B4', 'e8'],
  ]);
});

test('every edge is in one section, and each block is what is reached from its feeder without crossing a gap', () => {
  fc.assert(
    fc.property(anyRailroad, (document) => {
      const railroad = indexRailroad(document);
      const all = railroad.sections.flatMap((section) => section.edges);
      expect([...all].sort()).toEqual(document.edges.map((edge) => edge.id).sort());
      for (const block of document.blocks) {
        const extent = plainExtent(document, block.id);
        expect(new Set(railroad.edgesOfBlock.get(block.id))).toEqual(extent);
        for (const edge of extent) expect(railroad.blockOfEdge.get(edge)).toBe(block.id);
      }
    }),
    { numRuns: 300, seed: 48 },
  );
});

test('edges that meet at anything but a gap or an insulated crossing are in one block; across it they may be', () => {
  fc.assert(
    fc.property(anyRailroad, (document) => {
      const railroad = indexRailroad(document);
      for (const node of document.nodes) {
        if (node.kind === 'gap' || (node.kind === 'crossing' && node.insulated)) continue;
        const blocks = (railroad.edgesAt.get(node.id) ?? []).map((edge) => railroad.blockOfEdge.get(edge));
        expect(new Set(blocks).size).toBe(1);
      }
    }),
    { numRuns: 200, seed: 49 },
  );
});
