/** The operations of the drawing board on track: nodes join where they meet, and fit the edges that meet at them. */
import fc from 'fast-check';
import { describe, expect, test } from 'vitest';
import { brokenTrack } from '../../../shared-model/railroad/broken-track.ts';
import { railroadDocument, type TurnoutNode } from '../../../shared-model/railroad/document.ts';
import { blankSheet, type DraftDocument } from '../../../shared-model/railroad/editing/draft.ts';
import { drawEdge, thingAtSpot } from '../../../shared-model/railroad/editing/draw-edge.ts';
import { editBetween } from '../../../shared-model/railroad/editing/edit-between.ts';
import { act, historyOf, redo, undo } from '../../../shared-model/railroad/editing/history.ts';
import {
  copyTrack,
  inRectangle,
  joinMet,
  moveTrack,
} from '../../../shared-model/railroad/editing/move-track.ts';
import { openNode } from '../../../shared-model/railroad/editing/open-ends.ts';
import type { Outcome } from '../../../shared-model/railroad/editing/outcome.ts';
import { removeTrack } from '../../../shared-model/railroad/editing/remove-track.ts';
import { renameId } from '../../../shared-model/railroad/editing/rename-id.ts';
import { cutEdge, mergeAt, setJoin } from '../../../shared-model/railroad/editing/split-edge.ts';
import { lineOf, trackOf } from '../../../shared-model/railroad/editing/track.ts';
import {
  addBend,
  moveBend,
  nextTrunk,
  nextWays,
  setInsulated,
  setLength,
  setSelfLining,
  setSlips,
  slipFormOf,
  swapLegs,
} from '../../../shared-model/railroad/editing/track-acts.ts';
import { indexRailroad } from '../../../shared-model/railroad/railroad.ts';
import { canonicalRailroad } from '../../support/canonical-railroad.ts';
import { draftOf, drawn, drawnSiding, nodeAt } from '../../support/drawn-siding.ts';
import { passingSidingExample } from '../../support/example.ts';

const blank = blankSheet('Sheet');
const saysNo = (outcome: Outcome): string => (outcome.ok ? 'done' : outcome.says);
const turnout = (draft: DraftDocument): TurnoutNode => {
  const found = draft.nodes.find((node): node is TurnoutNode => node.kind === 'turnout');
  if (found === undefined) throw new Error('no turnout');
  return found;
};
const lengthOf = (draft: DraftDocument): number => draft.edges.reduce((sum, { length }) => sum + length, 0);

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
    expect(turnout(draft)).toMatchObject({ id: 'T1', trunk: 'e2', normal: 'e3', reverse: 'e1' });
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
    expect(turnout(draft).at).toEqual([4, 0]);
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

describe('a turnout', () => {
  const yard = drawn(drawn(drawn(blank, 1, [0, 0], [6, 0]), 1, [6, 0], [12, 0]), 1, [6, 0], [12, 3]);

  test('has its trunk changed round its three edges, and its legs swapped', () => {
    const next = draftOf(nextTrunk(yard, 'T1'));
    expect(turnout(next).trunk).toBe('e2');
    expect(turnout(draftOf(nextTrunk(draftOf(nextTrunk(next, 'T1')), 'T1'))).trunk).toBe('e1');
    expect(turnout(draftOf(swapLegs(yard, 'T1')))).toMatchObject({ normal: 'e3', reverse: 'e2' });
  });

  test('can be self-lining', () => {
    const lined = draftOf(setSelfLining(yard, 'T1', true));
    expect(turnout(lined).selfLining).toBe(true);
    expect(draftOf(setSelfLining(lined, 'T1', false))).toEqual(yard);
  });

  test('becomes a joint when a leg is removed, and settings forget it', () => {
    const setting = { id: 's1', name: 'S', selectors: {}, turnouts: { T1: 'normal' }, toggles: {} };
    const draft = draftOf(removeTrack({ ...yard, settings: [setting as never] }, new Set(['e3'])));
    expect(draft.nodes.map(({ kind }) => kind)).toEqual(['end', 'joint', 'end']);
    expect(draft.settings[0]?.turnouts).toEqual({});
  });
});

describe('a crossing', () => {
  const star = (
    [
      [0, 0],
      [6, 6],
      [6, 0],
      [0, 6],
    ] as const
  ).reduce((sheet, end) => drawn(sheet, 1, [3, 3], end), blank);
  const crossing = (draft: DraftDocument) => draft.nodes.find((node) => node.kind === 'crossing');

  test('has three ways to be crossed, one after the other', () => {
    const once = draftOf(nextWays(star, 'X1'));
    expect(crossing(once)?.ways).not.toEqual(crossing(star)?.ways);
    expect(draftOf(nextWays(draftOf(nextWays(once, 'X1')), 'X1'))).toEqual(star);
  });

  test('insulated, parts its two ways electrically', () => {
    const parted = draftOf(setInsulated(star, 'X1', true));
    expect(indexRailroad(star).sections).toHaveLength(1);
    expect(indexRailroad(parted).sections).toHaveLength(2);
  });

  test('has no slip, one, the other, or both', () => {
    for (const form of ['one', 'other', 'both', 'none'] as const) {
      const draft = draftOf(setSlips(star, 'X1', form));
      const node = crossing(draft);
      expect(brokenTrack(draft)).toEqual([]);
      expect(node === undefined ? null : slipFormOf(draft, node)).toBe(form);
    }
  });
});

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
    expect(turnout(draftOf(joinMet(moved, new Set(['n3'])))).at).toEqual([5, 0]);
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
    expect(turnout({ ...copy, nodes: copy.nodes.slice(8) })).toMatchObject({ trunk: 'e9', normal: 'e10' });
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

/** One act anywhere on the sheet, from five numbers. */
function randomAct(draft: DraftDocument, [kind, a, b, c, d]: readonly number[]): Outcome {
  const [x, y, u, v] = [a ?? 0, b ?? 0, c ?? 0, d ?? 0].map((n) => n % 7) as [number, number, number, number];
  const node = draft.nodes[(a ?? 0) % Math.max(1, draft.nodes.length)]?.id ?? '';
  const edge = draft.edges[(b ?? 0) % Math.max(1, draft.edges.length)]?.id ?? '';
  const some = new Set([node, edge]);
  switch ((kind ?? 0) % 14) {
    case 0:
      return cutEdge(draft, edge, (c ?? 0) / 100);
    case 1:
      return setJoin(draft, node, 'joint');
    case 2:
      return removeTrack(draft, new Set([edge]));
    case 3:
      return removeTrack(draft, new Set([node]));
    case 4:
      return joinMet(moveTrack(draft, some, [u - 3, v - 3]), some);
    case 5:
      return copyTrack(draft, some, [u, v + 1]);
    case 6:
      return openNode(draft, node, [u, v]);
    case 7:
      return nextTrunk(draft, node);
    case 8:
      return nextWays(draft, node);
    case 9:
      return mergeAt(draft, node);
    default:
      return drawEdge(
        draft,
        [
          [x, y],
          [u, v],
        ],
        100 + (d ?? 0),
      );
  }
}

test('whatever is done to the track, every node fits its edges, and all of it can be taken back and done again', () => {
  const anyActs = fc.array(fc.array(fc.nat(99), { minLength: 5, maxLength: 5 }), { maxLength: 40 });
  fc.assert(
    fc.property(anyActs, (acts) => {
      let history = historyOf(blank);
      for (const one of acts) {
        const outcome = randomAct(history.draft, one);
        if (outcome.ok) history = act(history, editBetween(history.draft, outcome.draft, 'act'));
        else expect(outcome.says).not.toBe('');
      }
      expect(brokenTrack(history.draft)).toEqual([]);
      expect(railroadDocument.safeParse(history.draft).error).toBeUndefined();
      let back = history;
      while (back.done.length > 0) back = undo(back);
      expect(back.draft).toEqual(blank);
      while (back.undone.length > 0) back = redo(back);
      expect(back.draft).toEqual(history.draft);
    }),
    { seed: 21, numRuns: 120 },
  );
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
