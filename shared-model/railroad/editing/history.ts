/** A draft with all that was done to it and all that was taken back, without a limit. */
import type { DraftDocument } from './draft.ts';
import { applyEdit, type Edit, inverseOf } from './edit.ts';
import { editBetween } from './edit-between.ts';

export interface History {
  readonly draft: DraftDocument;
  /** Oldest first. */
  readonly done: readonly Edit[];
  /** What can be done again, the next one last. */
  readonly undone: readonly Edit[];
}

/** A draft to which nothing has been done yet. */
export const historyOf = (draft: DraftDocument): History => ({ draft, done: [], undone: [] });

/**
 * Does an edit. What had been taken back is forgotten. An edit of the same drag as the last one becomes one with it, under its words; one that changes
 * nothing is passed over.
 */
export function act(history: History, edit: Edit): History {
  if (edit.changes.length === 0) return history;
  const draft = applyEdit(history.draft, edit);
  const last = history.done.at(-1);
  const goesOn = edit.drag !== undefined && last?.drag === edit.drag && history.undone.length === 0;
  if (!goesOn) return { draft, done: [...history.done, edit], undone: [] };
  const before = applyEdit(history.draft, inverseOf(last));
  const whole: Edit = { ...editBetween(before, draft, last.says), drag: edit.drag };
  const earlier = history.done.slice(0, -1);
  return { draft, done: whole.changes.length === 0 ? earlier : [...earlier, whole], undone: [] };
}

/** Takes the last edit back; the same history when nothing is left. */
export function undo(history: History): History {
  const last = history.done.at(-1);
  if (last === undefined) return history;
  return {
    draft: applyEdit(history.draft, inverseOf(last)),
    done: history.done.slice(0, -1),
    undone: [...history.undone, last],
  };
}

/** Does again what was taken back last; the same history when nothing is left. */
export function redo(history: History): History {
  const next = history.undone.at(-1);
  if (next === undefined) return history;
  return {
    draft: applyEdit(history.draft, next),
    done: [...history.done, next],
    undone: history.undone.slice(0, -1),
  };
}
