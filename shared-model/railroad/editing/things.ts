/** Changing, adding and taking out one thing of a draft's collections. */
import type { DraftDocument, ListName, ThingOf } from './draft.ts';
import { done, type Outcome, refused } from './outcome.ts';

/** Fields to set; those given as undefined are taken out. */
export type Fields<Thing> = { readonly [Field in keyof Thing]?: Thing[Field] | undefined };

function withFields<Thing extends object>(thing: Thing, fields: Fields<Thing>): Thing {
  return Object.fromEntries(
    Object.entries({ ...thing, ...fields }).filter(([, value]) => value !== undefined),
  ) as Thing;
}

/** The draft with some fields of one thing changed. */
export function withThing<List extends ListName>(
  draft: DraftDocument,
  list: List,
  id: string,
  fields: Fields<ThingOf<List>>,
): DraftDocument {
  const things: readonly ThingOf<List>[] = draft[list];
  return { ...draft, [list]: things.map((thing) => (thing.id === id ? withFields(thing, fields) : thing)) };
}

/** The draft with one thing more, at the end of its collection. */
export function withNew<List extends ListName>(
  draft: DraftDocument,
  list: List,
  thing: ThingOf<List>,
): DraftDocument {
  return { ...draft, [list]: [...draft[list], thing] };
}

/** The draft without one thing; what refers to it is left alone. */
export function without(draft: DraftDocument, list: ListName, id: string): DraftDocument {
  return { ...draft, [list]: draft[list].filter((thing) => thing.id !== id) };
}

/** A list with one of its items moved to another place in it. */
export function movedTo<Item>(list: readonly Item[], from: number, to: number): Item[] {
  const rest = list.filter((_, index) => index !== from);
  return [...rest.slice(0, to), ...list.slice(from, from + 1), ...rest.slice(to)];
}

/** Takes a knob out, from the saved settings too. Refused while a block is fed by it. */
export function withoutKnob(draft: DraftDocument, kind: 'selectors' | 'toggles', knob: string): Outcome {
  const fed = draft.blocks.filter(({ source }) => Object.values(source).some((id) => id === knob));
  if (fed.length > 0)
    return refused(`it feeds ${fed.map(({ name }) => name).join(', ')}: give them another source first`);
  return done(
    draft.settings.reduce(
      (now, setting) =>
        knob in setting[kind]
          ? withThing(now, 'settings', setting.id, {
              [kind]: Object.fromEntries(Object.entries(setting[kind]).filter(([id]) => id !== knob)),
            })
          : now,
      without(draft, kind, knob),
    ),
  );
}
