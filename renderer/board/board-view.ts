/**
 * What the board shows and what may be pressed on it: flat records, one for each thing that is drawn.
 * It reads the folded state and the caller's marks; it works out no rule.
 */
import type { BlockId, CutId, NodeId, ThrottleId, TrainId } from '../../shared-model/ids.ts';
import { blockMarks } from '../../shared-model/railroad/block-marks.ts';
import type { TurnoutPosition } from '../../shared-model/railroad/document.ts';
import { feedOf } from '../../shared-model/railroad/feed.ts';
import type { Railroad } from '../../shared-model/railroad/railroad.ts';
import { isThrown } from '../../shared-model/railroad/travel.ts';
import { authoritiesInForce } from '../../shared-model/session/facts/authorities.ts';
import type { BlockStateName, SessionState, Trail } from '../../shared-model/session/state.ts';
import { type BoardMark, blockWords, turnoutWords } from './board-words.ts';

/** What the caller knows beyond the state. Everything may be left out. */
export interface BoardOptions {
  /** Gaps that must not be crossed now, and why in a few words. */
  readonly barredGaps?: ReadonlyMap<NodeId, string>;
  /** By the id of a block, turnout, gap or train. */
  readonly marks?: ReadonlyMap<string, BoardMark>;
  /** What the next act is about: blocks and turnouts. */
  readonly next?: ReadonlySet<string>;
  /** Blocks and turnouts that open acts when they are pressed. */
  readonly pressable?: ReadonlySet<string>;
  readonly locked?: ReadonlySet<NodeId>;
}

/** Which cab: its place among the railroad's throttles (for outline and hue) and what is written in its badge. */
export interface CabMark {
  readonly index: number;
  readonly mark: string;
}

interface Pressable {
  /** In words, for those who do not see the drawing. */
  readonly says: string;
  readonly tagged: boolean;
  readonly mark: BoardMark | null;
  readonly next: boolean;
  readonly pressable: boolean;
}

export interface BlockView extends Pressable {
  readonly id: BlockId;
  readonly state: BlockStateName;
  /** Index of the owner's throttle, or null; flat, so that two views can be compared field by field. */
  readonly cabIndex: number | null;
  readonly cabMark: string;
  /** Its selector's position is presumed. */
  readonly presumed: boolean;
  /** Somebody works in it as they like. */
  readonly limits: boolean;
}

export interface TurnoutView extends Pressable {
  readonly id: NodeId;
  readonly position: TurnoutPosition;
  readonly presumed: boolean;
  readonly locked: boolean;
}

export interface TrainView {
  readonly id: TrainId | CutId;
  readonly name: string;
  readonly isCut: boolean;
  readonly cabIndex: number | null;
  readonly cabMark: string;
  readonly trail: Trail;
  /** Millimetres. */
  readonly length: number;
  readonly blocks: readonly BlockId[];
  readonly mark: BoardMark | null;
}

export interface BarredGap {
  readonly id: NodeId;
  readonly why: string;
  readonly mark: BoardMark | null;
}

export interface BoardView {
  readonly blocks: readonly BlockView[];
  readonly turnouts: readonly TurnoutView[];
  readonly trains: readonly TrainView[];
  readonly barred: readonly BarredGap[];
}

/** A cab's mark by its throttle; null for nobody. */
export function cabMarkOf(railroad: Railroad, cab: ThrottleId | null): CabMark | null {
  const index = railroad.document.throttles.findIndex(({ id }) => id === cab);
  return cab === null || index < 0 ? null : { index, mark: cab };
}

export function boardView(railroad: Railroad, state: SessionState, options: BoardOptions): BoardView {
  const marks = blockMarks(railroad.document);
  const tagged = new Map(state.tags.map((tag) => [tag.thing, tag.why]));
  const nameOf = (id: TrainId | CutId | null): string =>
    id === null ? '' : (state.trains[id as TrainId]?.name ?? id);
  const pressable = (id: string) => ({
    mark: options.marks?.get(id) ?? null,
    next: options.next?.has(id) ?? false,
    pressable: options.pressable?.has(id) ?? false,
  });
  const cabOf = (cab: ThrottleId | null) => {
    const found = cabMarkOf(railroad, cab);
    return { cabIndex: found?.index ?? null, cabMark: found?.mark ?? '' };
  };

  const limits = new Set<BlockId>(
    authoritiesInForce(state).flatMap(({ authority }) =>
      authority.kind === 'limits' ? authority.blocks : [],
    ),
  );
  const blocks = railroad.document.blocks.map((block): BlockView => {
    const now = state.blocks[block.id] ?? { state: 'open' as const, cab: null, train: null };
    const root = feedOf(railroad, block.id)?.selector ?? null;
    const selector = root === null ? undefined : state.selectors[root];
    const tag = tagged.get(block.id) ?? (root === null ? undefined : tagged.get(root));
    const cab = cabOf(now.cab);
    return {
      id: block.id,
      state: now.state,
      ...cab,
      presumed: selector?.presumed ?? false,
      limits: limits.has(block.id),
      tagged: tag !== undefined,
      ...pressable(block.id),
      says: blockWords({
        mark: marks.get(block.id) ?? block.id,
        name: block.name,
        state: now.state,
        cab: now.cab === null ? null : (railroad.throttles.get(now.cab)?.name ?? now.cab),
        train: nameOf(now.train),
        presumed: selector?.presumed ?? false,
        limits: limits.has(block.id),
        tag: tag ?? null,
        marked: options.marks?.get(block.id) ?? null,
      }),
    };
  });

  const turnouts = railroad.document.nodes.filter(isThrown).map(({ id }): TurnoutView => {
    const now = state.turnouts[id] ?? { position: 'normal' as const, presumed: true };
    const locked = options.locked?.has(id) ?? false;
    return {
      id,
      ...now,
      locked,
      tagged: tagged.has(id),
      ...pressable(id),
      says: turnoutWords({ id, ...now, locked, tag: tagged.get(id) ?? null }),
    };
  });

  const trains = Object.entries(state.trains)
    .filter(([, train]) => train.placed && train.coupledInto === null)
    .map(
      ([id, train]): TrainView => ({
        id: id as TrainId,
        name: train.name,
        isCut: false,
        ...cabOf(train.cab),
        trail: train.trail,
        length: train.length,
        blocks: train.blocks,
        mark: options.marks?.get(id) ?? null,
      }),
    );
  const cuts = Object.entries(state.cuts).map(
    ([id, cut]): TrainView => ({
      id: id as CutId,
      name: id,
      isCut: true,
      cabIndex: null,
      cabMark: '',
      trail: cut.trail,
      length: cut.length,
      blocks: cut.blocks,
      mark: options.marks?.get(id) ?? null,
    }),
  );
  const barred = railroad.document.nodes
    .filter(({ kind }) => kind === 'gap')
    .flatMap(({ id }): readonly BarredGap[] => {
      const mark = options.marks?.get(id) ?? null;
      const why = options.barredGaps?.get(id) ?? (mark === null ? undefined : BRIDGED);
      return why === undefined ? [] : [{ id, why, mark }];
    });
  return { blocks, turnouts, trains: [...cuts, ...trains], barred };
}

/** What is said at a gap with an alarm of its own that is not barred for another reason. */
const BRIDGED = 'bridged';

/** Whether two views say the same, field by field: then what is drawn of them need not be drawn again. */
export function sameView<View extends object>(one: View, other: View): boolean {
  const fields = Object.keys(one) as (keyof View)[];
  return (
    fields.length === Object.keys(other).length &&
    fields.every((field) => Object.is(one[field], other[field]))
  );
}
