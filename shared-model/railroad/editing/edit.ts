/** An edit is data with an inverse: what changes in which collection or field of a draft, from what to what. */
import type { DraftDocument, FieldName, ListName, Thing, ThingOf } from './draft.ts';

/** A thing, and where it stands in its collection. */
export interface Placed<Value> {
  readonly index: number;
  readonly thing: Value;
}

/** One thing of a collection: `before` null where it is new, `after` null where it goes. The indices are those in the whole draft before and after. */
export type ListChange<List extends ListName = ListName> = {
  [Name in List]: {
    readonly list: Name;
    readonly id: string;
    readonly before: Placed<ThingOf<Name>> | null;
    readonly after: Placed<ThingOf<Name>> | null;
  };
}[List];

/** One field of the document: null where it is absent. */
export interface FieldChange {
  readonly field: FieldName;
  readonly before: unknown;
  readonly after: unknown;
}

export type Change = ListChange | FieldChange;

export interface Edit {
  readonly changes: readonly Change[];
  /** Short words for the list of what can be undone: "gap in e4". */
  readonly says: string;
  /** Edits of one drag have the same mark here, and are undone as one. */
  readonly drag?: string | undefined;
}

const isOf =
  (list: ListName) =>
  (change: Change): change is ListChange =>
    'list' in change && change.list === list;

/** What a list becomes: the changed things taken out, then put in again where they stand afterwards. */
function changedList(list: readonly Thing[], changes: readonly ListChange[]): readonly Thing[] {
  const inPlace = changes.every(({ before, after }) => before !== null && before.index === after?.index);
  if (inPlace) {
    const things = [...list];
    for (const { after } of changes) if (after !== null) things[after.index] = after.thing;
    return things;
  }
  const gone = new Set(changes.filter(({ before }) => before !== null).map(({ id }) => id));
  const things = list.filter(({ id }) => !gone.has(id));
  const arriving = changes.flatMap(({ after }): readonly Placed<Thing>[] => (after === null ? [] : [after]));
  for (const { index, thing } of [...arriving].sort((one, other) => one.index - other.index))
    things.splice(index, 0, thing);
  return things;
}

/**
 * Carries out an edit. Collections that it does not touch stay the same objects.
 *
 * @param draft the draft that the edit was made for
 * @returns the draft afterwards
 */
export function applyEdit(draft: DraftDocument, edit: Edit): DraftDocument {
  const after: Record<string, unknown> = { ...draft };
  const lists = new Set(edit.changes.flatMap((change) => ('list' in change ? [change.list] : [])));
  for (const list of lists) after[list] = changedList(draft[list], edit.changes.filter(isOf(list)));
  for (const change of edit.changes)
    if ('field' in change) {
      if (change.after === null) delete after[change.field];
      else after[change.field] = change.after;
    }
  return after as DraftDocument;
}

/** The edit that takes an edit back. */
export const inverseOf = (edit: Edit): Edit => ({
  ...edit,
  changes: edit.changes.map(
    (change) => ({ ...change, before: change.after, after: change.before }) as Change,
  ),
});
