/** Finding things by what is typed: whole marks and names first, then beginnings of names. Several that fit make a list, never a guess. */
import type {
  BlockId,
  CutId,
  NodeId,
  SelectorId,
  SupplyId,
  ThrottleId,
  ToggleId,
  TrainId,
} from '../../../shared-model/ids.ts';
import { blockMarks } from '../../../shared-model/railroad/block-marks.ts';
import type { Railroad } from '../../../shared-model/railroad/railroad.ts';
import { isThrown } from '../../../shared-model/railroad/travel.ts';
import type { SessionState } from '../../../shared-model/session/state.ts';

export interface Named<Id extends string = string> {
  readonly id: Id;
  /** What is written in lists. */
  readonly name: string;
  /** Everything it may be called by, in small letters. */
  readonly words: readonly string[];
}

export type Found<Id extends string> =
  | { readonly kind: 'one'; readonly id: Id }
  | { readonly kind: 'several'; readonly list: readonly Named<Id>[] }
  | { readonly kind: 'none' };

const small = (text: string): string => text.toLowerCase().trim();
const digits = (text: string): string => /\d+$/.exec(text)?.[0] ?? '';

function named<Id extends string>(id: Id, name: string, ...more: readonly string[]): Named<Id> {
  return { id, name, words: [...new Set([id, name, ...more].map(small).filter((word) => word !== ''))] };
}

export interface Names {
  readonly trains: readonly Named<TrainId>[];
  readonly cuts: readonly Named<CutId>[];
  readonly blocks: readonly Named<BlockId>[];
  readonly places: readonly Named[];
  readonly cabs: readonly Named<ThrottleId>[];
  readonly selectors: readonly Named<SelectorId>[];
  readonly turnouts: readonly Named<NodeId>[];
  readonly toggles: readonly Named<ToggleId>[];
  readonly supplies: readonly Named<SupplyId>[];
  readonly settings: readonly Named[];
}

/** Everything that can be named tonight. */
export function namesOf(railroad: Railroad, state: SessionState): Names {
  const { document } = railroad;
  const marks = blockMarks(document);
  return {
    trains: Object.entries(state.trains).map(([id, { name }]) => named(id as TrainId, name, digits(name))),
    cuts: Object.keys(state.cuts).map((id) => named(id as CutId, id)),
    blocks: document.blocks.map(({ id, name }) =>
      named(id, `${marks.get(id) ?? id} ${name}`, name, marks.get(id) ?? ''),
    ),
    places: document.places.map(({ id, name }) => named(id, name)),
    cabs: document.throttles.map(({ id, name }) => named(id, name, `c${id}`)),
    selectors: document.selectors.map(({ id, name }) => named(id, name, `k${name}`)),
    turnouts: document.nodes.filter(isThrown).map(({ id }) => named(id, id)),
    toggles: document.toggles.map(({ id, name }) => named(id, name)),
    supplies: document.supplies.map(({ id, name }) => named(id, name)),
    settings: document.settings.map(({ id, name }) => named(id, name)),
  };
}

/** Looks one thing up: a whole word wins over beginnings. */
export function find<Id extends string>(list: readonly Named<Id>[], typed: string): Found<Id> {
  const word = small(typed);
  if (word === '') return { kind: 'none' };
  const whole = list.filter(({ words }) => words.includes(word));
  const fits =
    whole.length > 0 ? whole : list.filter(({ words }) => words.some((other) => other.startsWith(word)));
  const [first, ...rest] = fits;
  if (first === undefined) return { kind: 'none' };
  return rest.length === 0 ? { kind: 'one', id: first.id } : { kind: 'several', list: fits };
}
