import { describe, expect, it } from 'vitest';
import { overlaps, trackUnder } from '../../../renderer/board/label-places.ts';
import { labelSpots } from '../../../renderer/drawing-board/drawing/label-spots.ts';
import { nodeSpots, pixelLines } from '../../../renderer/drawing-board/drawing/pixel-track.ts';
import { sectionLooks } from '../../../renderer/drawing-board/drawing/section-looks.ts';
import { demoRailroad } from '../../../shared-model/demo/railroad.ts';
import type { RailroadDocument } from '../../../shared-model/railroad/document.ts';
import { blankSheet } from '../../../shared-model/railroad/editing/draft.ts';
import { indexRailroad } from '../../../shared-model/railroad/railroad.ts';

const LETTERS = { desk: 20, fine: 16 };

function namesOf(document: RailroadDocument, scale: number) {
  const railroad = indexRailroad(document);
  const lines = pixelLines(railroad, scale);
  const nodes = nodeSpots(railroad, lines, scale);
  return {
    names: labelSpots(railroad, sectionLooks(railroad), lines, nodes, LETTERS),
    tracks: [...lines.values()],
  };
}

/** Rows of blocks, each one edge of four squares between two gaps. */
function rows(count: number, blocksInRow: number): RailroadDocument {
  const ids = Array.from({ length: count * blocksInRow }, (_, n) => n);
  const document = {
    ...blankSheet('Rows'),
    nodes: Array.from({ length: count * (blocksInRow + 1) }, (_, n) => {
      const [row, column] = [Math.floor(n / (blocksInRow + 1)), n % (blocksInRow + 1)];
      const isEnd = column === 0 || column === blocksInRow;
      return { id: `n${row}-${column}`, kind: isEnd ? 'end' : 'gap', at: [column * 4, row * 2] };
    }),
    edges: ids.map((n) => {
      const [row, column] = [Math.floor(n / blocksInRow), n % blocksInRow];
      return { id: `e${n}`, between: [`n${row}-${column}`, `n${row}-${column + 1}`], length: 1200 };
    }),
    blocks: ids.map((n) => ({
      id: `B${n + 1}`,
      name: `Block ${n}`,
      source: { throttle: '1' },
      feeders: [{ edge: `e${n}` }],
    })),
  };
  return document as unknown as RailroadDocument;
}

/** The names of a drawing as they were placed last. */
function placedAs(document: RailroadDocument, scale: number, spots: ReturnType<typeof namesOf>['names']) {
  const railroad = indexRailroad(document);
  return { railroad, scale, looks: sectionLooks(railroad), marks: [], spots };
}

function expectNoneOverAnother(names: ReturnType<typeof namesOf>['names']) {
  for (const [index, one] of names.entries())
    for (const other of names.slice(index + 1))
      expect(overlaps(one.box, other.box), `${one.words} over ${other.words}`).toBe(false);
}

describe('names on the drawing', () => {
  it.each([20, 29, 48])(
    'stand beside the track of the demo and over none of it, at %i pixels to a square',
    (scale) => {
      const { names, tracks } = namesOf(demoRailroad, scale);
      expect(names.filter(({ state }) => state === 'fed')).toHaveLength(demoRailroad.blocks.length);
      for (const { box, words } of names) expect(trackUnder(box, tracks), words).toBe(0);
      expectNoneOverAnother(names);
    },
  );

  it('find a spot each in a drawing of 400 blocks', () => {
    const { names, tracks } = namesOf(rows(20, 20), 24);
    expect(names).toHaveLength(400);
    for (const { box, words } of names) expect(trackUnder(box, tracks), words).toBe(0);
  });

  it('are left out rather than written over one another where the drawing is too small for all', () => {
    const { names } = namesOf(rows(20, 20), 5);
    expect(names.length).toBeLessThan(400);
    expectNoneOverAnother(names);
  });

  it('stay where they are when track elsewhere changes, and go with their own track', () => {
    const document = rows(3, 4);
    const { names } = namesOf(document, 24);
    const before = placedAs(document, 24, names);
    const moved: RailroadDocument = {
      ...document,
      nodes: document.nodes.map((node) => (node.id === 'n0-0' ? { ...node, at: [-6, 0] } : node)),
    };
    const railroad = indexRailroad(moved);
    const lines = pixelLines(railroad, 24);
    const after = labelSpots(
      railroad,
      sectionLooks(railroad),
      lines,
      nodeSpots(railroad, lines, 24),
      LETTERS,
      before,
    );
    const spotOf = (all: typeof after, key: string) => all.find((name) => name.key === key)?.middle;
    for (const { key } of names)
      if (key === 'e0') expect(spotOf(after, key)).not.toEqual(spotOf(names, key));
      else expect(spotOf(after, key)).toEqual(spotOf(names, key));
  });

  it('look for a spot again when they say something else, though they found none before', () => {
    const fed = rows(3, 4);
    const dead: RailroadDocument = { ...fed, blocks: [] };
    const { names } = namesOf(dead, 24);
    const withoutOne = names.filter(({ key }) => key !== 'e5');
    const railroad = indexRailroad(fed);
    const lines = pixelLines(railroad, 24);
    const spots = nodeSpots(railroad, lines, 24);
    const again = (document: RailroadDocument) =>
      labelSpots(railroad, sectionLooks(railroad), lines, spots, LETTERS, placedAs(document, 24, withoutOne));
    expect(again(dead)).toHaveLength(12);
    expect(again(fed).map(({ key }) => key)).not.toContain('e5');
  });

  it('keep off the marks of findings', () => {
    const railroad = indexRailroad(rows(1, 3));
    const lines = pixelLines(railroad, 24);
    const looks = sectionLooks(railroad);
    const spots = nodeSpots(railroad, lines, 24);
    const [first] = labelSpots(railroad, looks, lines, spots, LETTERS);
    if (first === undefined) throw new Error('no name was placed');
    const names = labelSpots(railroad, looks, lines, spots, LETTERS, null, [first.box]);
    expect(names).toHaveLength(3);
    for (const { box } of names) expect(overlaps(box, first.box)).toBe(false);
  });

  it('tell what is wrong before they tell what is right', () => {
    const document = rows(1, 3);
    const joined = {
      ...document,
      nodes: document.nodes.map((node) => (node.id === 'n0-1' ? { ...node, kind: 'joint' } : node)),
    } as RailroadDocument;
    const [first] = namesOf(joined, 24).names;
    expect(first).toMatchObject({ state: 'two-sources', words: '1 and 2: no gap between' });
  });
});
