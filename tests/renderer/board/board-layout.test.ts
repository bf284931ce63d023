import { readFileSync } from 'node:fs';
import { describe, expect, it } from 'vitest';
import { boardLayout, chainsOf } from '../../../renderer/board/board-layout.ts';
import { overlaps, trackUnder } from '../../../renderer/board/label-places.ts';
import { distance, lineLength, type Point, type Polyline } from '../../../renderer/board/polyline.ts';
import { trackDrawing } from '../../../renderer/board/track-drawing.ts';
import type { BlockId, EdgeId } from '../../../shared-model/ids.ts';
import { railroadDocument } from '../../../shared-model/railroad/document.ts';
import { indexRailroad, type Railroad } from '../../../shared-model/railroad/railroad.ts';
import { clubRailroad } from '../support/club-railroad.ts';

const fromFile = (file: string): Railroad =>
  indexRailroad(railroadDocument.parse(JSON.parse(readFileSync(file, 'utf8'))));

const RAILROADS: readonly (readonly [string, Railroad])[] = [
  ['the club railroad', clubRailroad()],
  ['the demo railroad', fromFile('shared-model/demo/harbor-and-quarry.railroad.json')],
  ['the passing siding', fromFile('tests/support/passing-siding.railroad.json')],
];

/** The board's zone on the two screens that are promised, with the desk letters they get, and one very flat. */
const ZONES = [
  { width: 1280, height: 270, letterPx: 14 },
  { width: 1920, height: 500, letterPx: 20 },
  { width: 1920, height: 300, letterPx: 20 },
] as const;

const layoutOf = (railroad: Railroad, zone: (typeof ZONES)[number], zoom = 1) =>
  boardLayout(railroad, trackDrawing(railroad), zone, zoom, zone.letterPx);

describe.each(RAILROADS)('%s on the board', (_, railroad) => {
  describe.each(ZONES)('of $width x $height px', (zone) => {
    const layout = layoutOf(railroad, zone);
    const names = [...layout.names.values()];

    it('is drawn inside the zone', () => {
      for (const [x, y] of [...layout.lines.values()].flat()) {
        expect(x).toBeGreaterThanOrEqual(0);
        expect(x).toBeLessThanOrEqual(zone.width);
        expect(y).toBeGreaterThanOrEqual(0);
        expect(y).toBeLessThanOrEqual(zone.height);
      }
    });

    it('names every block and every place that no block names', () => {
      const blockNames = new Set(railroad.document.blocks.map(({ name }) => name));
      const places = railroad.document.places.filter(({ name }) => !blockNames.has(name));
      for (const { id } of railroad.document.blocks) expect([...layout.names.keys()]).toContain(id);
      for (const { id } of places) expect([...layout.names.keys()]).toContain(`place ${id}`);
    });

    it('lets no two names overlap, and keeps them in the zone', () => {
      for (const one of names) {
        expect(one.box.left).toBeGreaterThanOrEqual(0);
        expect(one.box.right).toBeLessThanOrEqual(zone.width);
        expect(one.box.top).toBeGreaterThanOrEqual(0);
        expect(one.box.bottom).toBeLessThanOrEqual(zone.height);
        for (const other of names) if (one !== other) expect(overlaps(one.box, other.box)).toBe(false);
      }
    });
  });

  it('has no block named over another block’s track, nor nearer to it than to its own, however flat the zone is', () => {
    for (const { height, letterPx } of [...ZONES, { height: 178, letterPx: 14 }]) {
      const layout = boardLayout(railroad, trackDrawing(railroad), { width: 1280, height }, 1, letterPx);
      for (const { id } of railroad.document.blocks) {
        const name = layout.names.get(id);
        if (name === undefined) continue;
        const linesOf = (block: BlockId) => chainsOf(layout, block).map(({ line }) => line);
        const others = railroad.document.blocks.filter((other) => other.id !== id);
        const covered = (reach: number, lines: readonly Polyline[]) =>
          trackUnder(
            {
              left: name.box.left,
              right: name.box.right,
              top: name.box.top - reach,
              bottom: name.box.bottom + reach,
            },
            lines,
          ) > 0;
        const theirs = others.flatMap((other) => linesOf(other.id));
        expect(covered(0, theirs), `${id} of ${height} px`).toBe(false);
        const near = Array.from({ length: 60 }, (_, reach) => reach).find((reach) =>
          covered(reach, [...theirs, ...linesOf(id)]),
        );
        expect(near === undefined || covered(near, linesOf(id)), `${id} of ${height} px`).toBe(true);
      }
    }
  });

  it('has no name over track where there is room', () => {
    const layout = layoutOf(railroad, ZONES[1]);
    for (const { box } of layout.names.values()) expect(trackUnder(box, [...layout.lines.values()])).toBe(0);
  });

  it('is drawn whole: the chains of all blocks are as long as all edges, but for rounded corners', () => {
    const layout = layoutOf(railroad, ZONES[1]);
    const chains = [...layout.chains.values()].flat().reduce((sum, { line }) => sum + lineLength(line), 0);
    const edges = [...layout.lines.values()].reduce((sum, line) => sum + lineLength(line), 0);
    expect(chains).toBeLessThanOrEqual(edges + 1e-6);
    expect(chains).toBeGreaterThan(edges * 0.97);
  });

  it('grows with the zoom', () => {
    const [near, far] = [layoutOf(railroad, ZONES[1], 2), layoutOf(railroad, ZONES[1])];
    for (const [id, line] of far.lines)
      expect(lineLength(near.lines.get(id) ?? [])).toBeCloseTo(2 * lineLength(line), 6);
  });
});

describe('a gap drawn twice', () => {
  const layout = layoutOf(clubRailroad(), ZONES[1]);

  it('ends its first edge at one spot and its second at the other', () => {
    const spots = layout.gaps.filter(({ id }) => id === 'gO0').map(({ at }) => at);
    const first = layout.lines.get('o1' as EdgeId)?.[0] as Point;
    const second = layout.lines.get('o4' as EdgeId)?.at(-1) as Point;
    expect(spots).toHaveLength(2);
    expect(Math.min(...spots.map((spot) => distance(spot, first)))).toBeLessThan(1e-6);
    expect(Math.min(...spots.map((spot) => distance(spot, second)))).toBeLessThan(1e-6);
    expect(distance(first, second)).toBeGreaterThan(1000);
  });
});

describe('the chains of a block', () => {
  const layout = layoutOf(clubRailroad(), ZONES[1]);

  it('run from turnout to turnout and gap', () => {
    const ends = chainsOf(layout, 'B5' as BlockId).map(({ start, end }) => [start.node, end.node].sort());
    expect(ends.map((pair) => pair.join(' ')).sort()).toEqual([
      'T1 T2',
      'T1 gI0',
      'T1 gS1',
      'T2 gI1',
      'T2 gS2',
    ]);
  });
});
