/** Edits and their history: what is done can be taken back to the blank sheet and done again, whatever was done. */
import fc from 'fast-check';
import { describe, expect, test } from 'vitest';
import type { RailroadDocument } from '../../../shared-model/railroad/document.ts';
import { blankSheet, freshId, freshIds } from '../../../shared-model/railroad/editing/draft.ts';
import { applyEdit, type Edit, inverseOf } from '../../../shared-model/railroad/editing/edit.ts';
import { editBetween, sameJson } from '../../../shared-model/railroad/editing/edit-between.ts';
import { act, type History, historyOf, redo, undo } from '../../../shared-model/railroad/editing/history.ts';
import { passingSidingExample as passing } from '../../support/example.ts';
import { anyRailroad } from '../../support/random-railroad.ts';

const undoAll = (history: History): History => {
  let at = history;
  for (let before = undo(at); before !== at; before = undo(at)) at = before;
  return at;
};
const redoAll = (history: History): History => {
  let at = history;
  for (let next = redo(at); next !== at; next = redo(at)) at = next;
  return at;
};
const doAll = (drafts: readonly RailroadDocument[]): History =>
  drafts.reduce(
    (history, draft) => act(history, editBetween(history.draft, draft, draft.name)),
    historyOf(blankSheet('Blank')),
  );

/** A document changed at random: things of any list dropped, put elsewhere, given twice with another id; fields gone. */
const anyDraft: fc.Arbitrary<RailroadDocument> = fc
  .tuple(anyRailroad, fc.array(fc.tuple(fc.nat(9), fc.nat(30), fc.nat(30), fc.nat(3)), { maxLength: 12 }))
  .map(([document, changes]) => {
    let draft: RailroadDocument = document;
    for (const [listNumber, from, to, kind] of changes) {
      const list = (['nodes', 'edges', 'blocks', 'trains', 'selectors'] as const)[listNumber % 5] ?? 'nodes';
      const things: RailroadDocument[typeof list][number][] = [...draft[list]];
      const taken = things.splice(from % Math.max(1, things.length), 1);
      if (kind !== 0) things.splice(to % (things.length + 1), 0, ...taken);
      if (kind === 2)
        things.push(...taken.map((thing) => ({ ...thing, id: freshId(draft, 'x') }) as typeof thing));
      draft = { ...draft, [list]: things };
      if (kind === 3) draft = { ...draft, masterSwitch: `door ${from}` };
    }
    return draft;
  });

describe('an edit', () => {
  test('between two documents leads from one to the other, and its inverse back', () => {
    fc.assert(
      fc.property(anyDraft, anyDraft, (before, after) => {
        const edit = editBetween(before, after, 'all of it');
        expect(applyEdit(before, edit)).toEqual(after);
        expect(applyEdit(after, inverseOf(edit))).toEqual(before);
      }),
      { seed: 11, numRuns: 60 },
    );
  });

  test('between a document and itself changes nothing', () => {
    expect(editBetween(passing, structuredClone(passing), 'nothing').changes).toEqual([]);
  });

  test('leaves collections that it does not touch as the same objects, so that they need not be drawn again', () => {
    const after = applyEdit(passing, {
      says: 'rename',
      changes: [{ field: 'name', before: passing.name, after: 'Other' }],
    });
    expect(after.name).toBe('Other');
    expect(after.nodes).toBe(passing.nodes);
  });

  test('can take a field away and bring it back', () => {
    const { commonBus, ...without } = passing;
    const edit = editBetween(passing, without, 'no bus');
    expect(applyEdit(passing, edit)).toEqual(without);
    expect(applyEdit(without, inverseOf(edit)).commonBus).toEqual(commonBus);
  });

  test('is JSON: written and read it does the same', () => {
    fc.assert(
      fc.property(anyDraft, anyDraft, (before, after) => {
        const edit = JSON.parse(JSON.stringify(editBetween(before, after, 'x'))) as Edit;
        expect(applyEdit(before, edit)).toEqual(after);
      }),
      { seed: 12, numRuns: 20 },
    );
  });
});

describe('the history', () => {
  test('undone to the blank sheet and done again to the end gives the same document', () => {
    fc.assert(
      fc.property(fc.array(anyDraft, { minLength: 1, maxLength: 6 }), (drafts) => {
        const history = doAll(drafts);
        const blank = undoAll(history);
        expect(blank.draft).toEqual(blankSheet('Blank'));
        expect(blank.done).toEqual([]);
        expect(redoAll(blank)).toEqual(history);
      }),
      { seed: 13, numRuns: 40 },
    );
  });

  test('forgets what was taken back when something else is done', () => {
    const two = doAll([passing, { ...passing, name: 'Second' }]);
    const other = act(undo(two), editBetween(passing, { ...passing, name: 'Third' }, 'third'));
    expect(redo(other)).toBe(other);
    expect(other.draft.name).toBe('Third');
  });

  test('takes the edits of one drag back as one', () => {
    const start = historyOf(passing);
    const names = ['a', 'ab', 'abc'].map((name) => ({ ...passing, name }));
    const dragged = names.reduce(
      (history, draft) => act(history, { ...editBetween(history.draft, draft, 'drag'), drag: '1' }),
      start,
    );
    expect(dragged.done).toHaveLength(1);
    expect(undo(dragged).draft).toEqual(passing);
    expect(redo(undo(dragged)).draft.name).toBe('abc');
  });

  test('keeps nothing of a drag that ends where it began', () => {
    const away = act(historyOf(passing), {
      ...editBetween(passing, { ...passing, name: 'away' }, 'drag'),
      drag: '1',
    });
    const back = act(away, { ...editBetween(away.draft, passing, 'drag'), drag: '1' });
    expect(back.done).toEqual([]);
    expect(back.draft).toEqual(passing);
  });

  test('passes over an edit that changes nothing', () => {
    const start = historyOf(passing);
    expect(act(start, { says: 'nothing', changes: [] })).toBe(start);
  });
});

test('a fresh id is the lowest number that nothing of any kind has', () => {
  expect(freshId(passing, 'e')).toBe('e9');
  expect(freshIds(new Set(['B1', 'B3']), 'B', 3)).toEqual(['B2', 'B4', 'B5']);
});

test('a field that is undefined is the same as one that is absent', () => {
  expect(sameJson({ a: 1, b: undefined }, { a: 1 })).toBe(true);
  expect(sameJson({ a: [1, 2] }, { a: [2, 1] })).toBe(false);
});
