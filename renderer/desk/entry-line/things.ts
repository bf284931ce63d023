/** Everything that can be named in the entry line tonight, and by which words. */

import { blockMarks } from '../../../shared-model/railroad/block-marks.ts';
import type { Railroad } from '../../../shared-model/railroad/railroad.ts';
import { isThrown } from '../../../shared-model/railroad/travel.ts';
import type { SessionState } from '../../../shared-model/session/state.ts';

export const THING_KINDS = [
  'train',
  'cut',
  'block',
  'place',
  'edge',
  'node',
  'selector',
  'turnout',
  'toggle',
  'cab',
  'supply',
  'setting',
  'authority',
] as const;
export type ThingKind = (typeof THING_KINDS)[number];

export interface Thing {
  readonly kind: ThingKind;
  readonly id: string;
  /** As it is written in lists and said. */
  readonly label: string;
  /** Whole words for it, in small letters: id, mark, letter and number ("k4"). */
  readonly marks: readonly string[];
  /** Names that may be shortened, in small letters. */
  readonly names: readonly string[];
  /** The bare number by which it goes, where it has one. */
  readonly number: string | null;
}

/** In small letters, with single spaces; "12's" is 12. */
export const small = (text: string): string =>
  text
    .trim()
    .toLowerCase()
    .replace(/\s+/g, ' ')
    .replace(/(\w)'s\b/g, '$1');

/** The number in a name, without leading zeros: "No. 12" is 12. */
const numberIn = (text: string): string | null => /(?:^|\D)0*([1-9]\d*)\D*$/.exec(text)?.[1] ?? null;

const lettered = (letter: string, number: string | null): readonly string[] =>
  number === null ? [] : [`${letter}${number}`];

interface Raw {
  readonly kind: ThingKind;
  readonly id: string;
  readonly label: string;
  readonly marks?: readonly string[];
  readonly names?: readonly string[];
  readonly number?: string | null;
}

const thing = ({ kind, id, label, marks = [], names = [], number = null }: Raw): Thing => ({
  kind,
  id,
  label,
  // The bare number of a throttle is a train or a block: a cab is "c2", but for a dial's position.
  marks: [...new Set([...(kind === 'cab' && /^\d+$/.test(id) ? [] : [id]), ...marks].map(small))],
  names: [...new Set(names.map(small).filter((name) => name !== ''))],
  number,
});

function movingThings(state: SessionState): readonly Thing[] {
  const trains = Object.entries(state.trains).map(([id, { name }]) =>
    thing({ kind: 'train', id, label: name, names: [name], number: numberIn(name) ?? numberIn(id) }),
  );
  const cuts = Object.keys(state.cuts).map((id) => thing({ kind: 'cut', id, label: id, names: [id] }));
  const authorities = Object.keys(state.authorities).map((id) =>
    thing({ kind: 'authority', id, label: `authority ${id}` }),
  );
  return [...trains, ...cuts, ...authorities];
}

function trackThings({ document }: Railroad): readonly Thing[] {
  const marks = blockMarks(document);
  return [
    ...document.blocks.map(({ id, name }) => {
      const mark = marks.get(id) ?? id;
      return thing({
        kind: 'block',
        id,
        label: mark === name ? mark : `${mark} ${name}`,
        marks: [mark],
        names: [name],
        number: /^\d+$/.test(mark) ? mark : null,
      });
    }),
    ...document.places.map(({ id, name }) => thing({ kind: 'place', id, label: name, names: [name] })),
    ...document.edges.map(({ id, name }) =>
      thing({ kind: 'edge', id, label: name ?? id, marks: name === undefined ? [] : [name] }),
    ),
    ...document.nodes.map(({ id }) => thing({ kind: 'node', id, label: id })),
    ...document.nodes
      .filter(isThrown)
      .map(({ id }) =>
        thing({ kind: 'turnout', id, label: id, marks: lettered('t', numberIn(id)), names: [id] }),
      ),
  ];
}

function wiredThings({ document }: Railroad, state: SessionState): readonly Thing[] {
  const cabIds = new Set<string>(document.throttles.map(({ id }) => `c${id}`));
  return [
    ...document.selectors.map(({ id, name }) =>
      thing({
        kind: 'selector',
        id,
        label: `K ${name}`,
        marks: [`k${name}`, ...lettered('k', numberIn(name) ?? numberIn(id))],
        names: [id, name],
      }),
    ),
    ...document.toggles.map(({ id, name }) =>
      thing({
        kind: 'toggle',
        id,
        label: name,
        marks: lettered('h', numberIn(id) ?? numberIn(name)),
        names: [id, name],
      }),
    ),
    ...document.throttles.map(({ id, name }, index) => {
      const person = state.cabs[id]?.person ?? null;
      const place = `c${index + 1}`;
      return thing({
        kind: 'cab',
        id,
        label: person === null ? name : `${name} (${person})`,
        marks: [`c${id}`, ...(cabIds.has(place) ? [] : [place])],
        names: [name, ...(person === null ? [] : [person])],
      });
    }),
    ...document.supplies.map(({ id, name }) => thing({ kind: 'supply', id, label: name, names: [id, name] })),
    ...document.settings.map(({ id, name }) =>
      thing({ kind: 'setting', id, label: name, names: [id, name] }),
    ),
  ];
}

/** Everything that can be named: trains and cuts of tonight, track, knobs, cabs, supplies, settings. */
export function thingsOf(railroad: Railroad, state: SessionState): readonly Thing[] {
  return [...movingThings(state), ...trackThings(railroad), ...wiredThings(railroad, state)];
}
