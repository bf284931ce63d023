/** Whatever is done to a draft: every node fits its edges, and all of it can be taken back to the blank sheet and done again. */
import fc from 'fast-check';
import { expect, test } from 'vitest';
import { brokenTrack } from '../../../../shared-model/railroad/broken-track.ts';
import { railroadDocument } from '../../../../shared-model/railroad/document.ts';
import { blankSheet, type DraftDocument } from '../../../../shared-model/railroad/editing/draft.ts';
import { editBetween } from '../../../../shared-model/railroad/editing/edit-between.ts';
import { act, historyOf, redo, undo } from '../../../../shared-model/railroad/editing/history.ts';
import { moveTrack } from '../../../../shared-model/railroad/editing/move-track.ts';
import { drawn } from '../../../support/drawn-siding.ts';
import { actOf, OTHER_ACTS, TRACK_ACTS, WIRING_ACTS } from '../../../support/every-act.ts';
import { passingSidingExample } from '../../../support/example.ts';

const blank = blankSheet('Sheet');
/** The example with a crossing on the same sheet, and a toggle that feeds nothing. */
const wired = (
  [
    [0, 0],
    [6, 6],
    [6, 0],
    [0, 6],
  ] as const
).reduce<DraftDocument>((draft, end) => drawn(draft, 100, [3, 3], end), {
  ...moveTrack(passingSidingExample, new Set(passingSidingExample.nodes.map(({ id }) => id)), [0, 20]),
  toggles: [{ id: 'H1' as never, name: 'Hold 1' }],
});
const ALL_ACTS = { ...TRACK_ACTS, ...WIRING_ACTS, ...OTHER_ACTS };

/** Acts in any order, drawing more often than the rest so that there is something to act on; some of them in one drag with the last. */
const anyActs = fc.array(
  fc.record({
    act: fc.oneof(
      { weight: 1, arbitrary: fc.constant(0) },
      { weight: 4, arbitrary: fc.nat(Object.keys(ALL_ACTS).length - 1) },
    ),
    about: fc.array(fc.nat(99), { minLength: 4, maxLength: 4 }),
    drags: fc.boolean(),
  }),
  { minLength: 10, maxLength: 60 },
);

test('every node fits its edges, and undone to the sheet it began with and done again to the end it is the same document', () => {
  const happened = new Map<string, number>(Object.keys(ALL_ACTS).map((name) => [name, 0]));
  fc.assert(
    fc.property(fc.constantFrom(blank, wired), anyActs, (start, acts) => {
      let history = historyOf(start);
      for (const { act: which, about, drags } of acts) {
        const { name, outcome } = actOf(ALL_ACTS, history.draft, [which, ...about]);
        if (!outcome.ok) {
          expect(outcome.says).not.toBe('');
          continue;
        }
        const edit = editBetween(history.draft, outcome.draft, name);
        if (edit.changes.length > 0) happened.set(name, (happened.get(name) ?? 0) + 1);
        history = act(history, { ...edit, drag: drags ? 'drag' : undefined });
      }
      expect(brokenTrack(history.draft)).toEqual([]);
      expect(railroadDocument.safeParse(history.draft).error).toBeUndefined();
      let back = history;
      while (back.done.length > 0) back = undo(back);
      expect(back.draft).toEqual(start);
      while (back.undone.length > 0) back = redo(back);
      expect(back.draft).toEqual(history.draft);
    }),
    { seed: 21, numRuns: 150 },
  );
  expect([...happened].filter(([, times]) => times === 0)).toEqual([]);
});
