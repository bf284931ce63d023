/** The edit that leads from one draft to another, so that an operation may be written as draft to draft. */
import { LISTS } from '../document.ts';
import { type DraftDocument, FIELDS, type ListName, type Thing } from './draft.ts';
import type { Change, Edit, ListChange, Placed } from './edit.ts';

/** Whether two values of JSON are the same, whatever the order of their fields; a field that is undefined is absent. */
export function sameJson(one: unknown, other: unknown): boolean {
  if (one === other) return true;
  if (typeof one !== 'object' || typeof other !== 'object' || one === null || other === null) return false;
  if (Array.isArray(one) || Array.isArray(other))
    return (
      Array.isArray(one) &&
      Array.isArray(other) &&
      one.length === other.length &&
      one.every((item, index) => sameJson(item, other[index]))
    );
  const [left, right] = [one as Record<string, unknown>, other as Record<string, unknown>];
  const fields = new Set([...Object.keys(left), ...Object.keys(right)]);
  return [...fields].every((field) => sameJson(left[field], right[field]));
}

const placed = (list: readonly Thing[]): ReadonlyMap<string, Placed<Thing>> =>
  new Map(list.map((thing, index) => [thing.id, { index, thing }]));

function listChanges(list: ListName, before: readonly Thing[], after: readonly Thing[]): readonly Change[] {
  if (before === after) return [];
  const [was, is] = [placed(before), placed(after)];
  const same = (id: string) => {
    const [one, other] = [was.get(id), is.get(id)];
    return one !== undefined && other !== undefined && sameJson(one.thing, other.thing);
  };
  const stay = before.filter(({ id }) => same(id));
  const stayAfter = after.filter(({ id }) => same(id));
  // What stays keeps its order; otherwise everything counts as changed, which is true and still has an inverse.
  const ordered = stay.every(({ id }, index) => stayAfter[index]?.id === id);
  const ids = [...new Set([...was.keys(), ...is.keys()])].filter((id) => !ordered || !same(id));
  return ids.map(
    (id) => ({ list, id, before: was.get(id) ?? null, after: is.get(id) ?? null }) as ListChange,
  );
}

/**
 * The edit between two drafts.
 *
 * @param says short words for the list of what can be undone
 * @returns an edit with `applyEdit(before, edit)` the same as `after`; without changes when the two are the same
 */
export function editBetween(before: DraftDocument, after: DraftDocument, says: string): Edit {
  const fields = FIELDS.filter((field) => !sameJson(before[field], after[field])).map((field) => ({
    field,
    before: before[field] ?? null,
    after: after[field] ?? null,
  }));
  return {
    says,
    changes: [...LISTS.flatMap((list) => listChanges(list, before[list], after[list])), ...fields],
  };
}
