/** The dials and toggles of the wooden control panel, row by row, with what each stands at and where it goes next. */
import type { Railroad } from '../../shared-model/railroad/railroad.ts';
import type { SessionState } from '../../shared-model/session/state.ts';
import type { PendingThrow } from './pending-throw.ts';

export interface Dial {
  readonly id: string;
  /** As short as it is on the wood: the name where that is short, else the id. */
  readonly mark: string;
  readonly name: string;
  readonly at: string;
  readonly presumed: boolean;
  readonly wrong: boolean;
  /** Where NEXT sends it; null when nothing does. */
  readonly to: string | null;
}

const LONGEST_MARK = 4;
const shortest = (name: string, id: string): string => (name.length <= LONGEST_MARK ? name : id);
const words = (to: string | boolean): string => (typeof to === 'boolean' ? (to ? 'on' : 'off') : to);

interface Placed extends Dial {
  readonly row: number;
  readonly column: number;
}

/** How many of the throws to come are marked at the dials. */
const MARKED_THROWS = 3;

export function dialRows(
  { document }: Railroad,
  state: SessionState,
  pending: readonly PendingThrow[],
): readonly (readonly Dial[])[] {
  const next = new Map(
    pending.slice(0, MARKED_THROWS).map(({ thrown }) => [String(thrown.id), words(thrown.to)] as const),
  );
  const wrongBlocks = new Set(
    state.alarms.filter(({ code }) => code === 'wrong-throttle').map(({ about }) => about[0]),
  );
  const wrongDials = new Set(
    state.alarms.filter(({ code }) => code === 'second-train').map(({ about }) => about[0]),
  );
  const selectors = document.selectors.map(({ id, name, at: [column, row] = [0, 0] }): Placed => {
    const block = document.blocks.find(({ source }) => 'selector' in source && source.selector === id)?.id;
    const now = state.selectors[id];
    return {
      id,
      mark: shortest(name, id),
      name: `Selector ${name}`,
      at: now?.position ?? 'off',
      presumed: now?.presumed ?? true,
      wrong: wrongBlocks.has(block) || wrongDials.has(id),
      to: next.get(id) ?? null,
      row,
      column,
    };
  });
  const toggles = document.toggles.map(({ id, name, at: [column, row] = [0, 0] }): Placed => {
    const now = state.toggles[id];
    return {
      id,
      mark: shortest(name, id),
      name,
      at: now?.on === true ? 'on' : 'off',
      presumed: now?.presumed ?? true,
      wrong: wrongDials.has(id),
      to: next.get(id) ?? null,
      row,
      column,
    };
  });
  const all = [...selectors, ...toggles];
  const rows = [...new Set(all.map(({ row }) => row))].toSorted((a, b) => a - b);
  return rows.map((row) => all.filter((dial) => dial.row === row).toSorted((a, b) => a.column - b.column));
}
