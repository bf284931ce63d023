/** Operations on the selectors of a draft: what is on each dial, in the order of the dial. */
import { selectorId, type ThrottleId } from '../../ids.ts';
import type { Selector, Throttle } from '../document.ts';
import { type DraftDocument, freshId } from './draft.ts';
import { withThing } from './things.ts';

/** What a contact of a common rotary switch carries where nothing else is known (common practice, no source). */
const USUAL_CONTACT_AMPS = 8;
/** How many knobs stand in a row of the wooden board before a new one is begun. */
const COLUMNS = 8;

const numberIn = (id: string): string => /\d+$/.exec(id)?.[0] ?? id;

/** Where the next knob goes on the wooden board: right of the last one, or in a new row. */
function nextSpot(draft: DraftDocument): [number, number] {
  const spots = [...draft.selectors, ...draft.toggles].flatMap(({ at }) => (at === undefined ? [] : [at]));
  if (spots.length === 0) return [0, 0];
  const row = Math.max(...spots.map(([, each]) => each));
  const column = Math.max(...spots.filter(([, each]) => each === row).map(([each]) => each));
  return column + 1 < COLUMNS ? [column + 1, row] : [0, row + 1];
}

/** A selector that the draft has not: of the same make as the last one, else off and every throttle, with end stops. */
export function nextSelector(draft: DraftDocument): Selector {
  const id = selectorId.parse(freshId(draft, 'K'));
  const last = draft.selectors.at(-1);
  return {
    id,
    name: numberIn(id),
    positions: last?.positions ?? ['off', ...draft.throttles.map((throttle) => throttle.id)],
    stops: last?.stops ?? true,
    ...(last?.contacts === undefined ? {} : { contacts: last.contacts }),
    contactAmps: last?.contactAmps ?? USUAL_CONTACT_AMPS,
    at: nextSpot(draft),
  };
}

/** Every other dial made like one: its positions, stops and contacts; names and places on the board stay. */
export function allDialsLike(draft: DraftDocument, id: string): DraftDocument {
  const model = draft.selectors.find((selector) => selector.id === id);
  if (model === undefined) return draft;
  const { positions, stops, contacts, contactAmps } = model;
  return draft.selectors.reduce(
    (so, selector) => withThing(so, 'selectors', selector.id, { positions, stops, contacts, contactAmps }),
    draft,
  );
}

/** Throttles that no dial has a position for and no block is wired straight to, where there are dials at all. */
export function offDials(draft: DraftDocument): readonly Throttle[] {
  if (draft.selectors.length === 0) return [];
  const used = new Set<string | null>(draft.selectors.flatMap(({ positions }) => positions));
  for (const { source } of draft.blocks) if ('throttle' in source) used.add(source.throttle);
  return draft.throttles.filter(({ id }) => !used.has(id));
}

/** A throttle put on every dial that has not got it yet: on the first position that is not wired, else on a further one. */
export function onEveryDial(draft: DraftDocument, throttle: ThrottleId): DraftDocument {
  return draft.selectors.reduce((so, { id, positions }) => {
    if (positions.includes(throttle)) return so;
    const free = positions.indexOf(null);
    const next =
      free < 0
        ? [...positions, throttle]
        : positions.map((position, index) => (index === free ? throttle : position));
    return withThing(so, 'selectors', id, { positions: next });
  }, draft);
}
