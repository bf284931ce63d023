/** Whom and what a waiting train waits for: each moment is charged to the owner in the first reason of its ask. */
import type { BlockId, CutId, NodeId, SelectorId, ToggleId, TrainId } from '../ids.ts';
import type { Railroad } from '../railroad/railroad.ts';
import { blockOfNode, locksOn } from '../session/facts/locks.ts';
import type { AskNow, SessionState } from '../session/state.ts';

/** All null where the ask was free, and only the dispatcher was waited for. */
export interface Charged {
  /** The block, turnout or other thing of the first reason. */
  readonly thing: string | null;
  /** The block that the thing is, or lies in, or feeds. */
  readonly block: BlockId | null;
  /** The train or cut that had it. */
  readonly owner: TrainId | CutId | null;
}

/** The block that a thing is, lies in, or feeds; null where it has none. */
export function blockOfThing(railroad: Railroad, thing: string): BlockId | null {
  if (railroad.blocks.has(thing as BlockId)) return thing as BlockId;
  if (railroad.nodes.has(thing as NodeId)) return blockOfNode(railroad, thing as NodeId);
  const fed = railroad.document.blocks.find(
    ({ source }) =>
      ('selector' in source && source.selector === (thing as SelectorId)) ||
      ('toggle' in source && source.toggle === (thing as ToggleId)),
  );
  return fed?.id ?? null;
}

/** Who holds a turnout by a lock, or has a block at a crossing; not the train that asks. */
function holderOfNode(railroad: Railroad, state: SessionState, node: NodeId, asks: TrainId) {
  const lock = locksOn({ railroad, state }, node).find(({ train }) => train !== asks);
  if (lock !== undefined) return lock.train;
  const owners = (railroad.edgesAt.get(node) ?? []).map((edge) => {
    const block = railroad.blockOfEdge.get(edge);
    return block === undefined ? null : (state.blocks[block]?.train ?? null);
  });
  return owners.find((owner) => owner !== null && owner !== asks) ?? null;
}

export function chargedTo(railroad: Railroad, state: SessionState, { train, reasons }: AskNow): Charged {
  const [thing = null, second = null] = reasons[0]?.about ?? [];
  if (thing === null) return { thing: null, block: null, owner: null };
  const named = second !== null && (second in state.trains || second in state.cuts);
  const owner = named
    ? (second as TrainId)
    : railroad.nodes.has(thing as NodeId)
      ? holderOfNode(railroad, state, thing as NodeId, train)
      : null;
  return { thing, block: blockOfThing(railroad, thing), owner };
}
