/**
 * The checker's own reading of where a train lies and how it may go on. It shares no code with the planner: it walks the document edge
 * by edge, so that a mistake of the planner's tables is found and not repeated.
 */
import type { BlockId, EdgeId, NodeId, ThrottleId } from '../../ids.ts';
import type { TurnoutPosition } from '../../railroad/document.ts';
import type { Railroad } from '../../railroad/railroad.ts';
import { isStop, onward, type Spot, turned } from '../../railroad/travel.ts';
import type { Millimetres } from '../../units.ts';

/** A train on the track: directed edges, head first, and how far its head is short of the end of the first. */
export interface LyingTrain {
  readonly trail: readonly Spot[];
  readonly shortMm: Millimetres;
  readonly lengthMm: Millimetres;
}

/** Sums of lengths differ by rounding; this much is nothing. */
const NOTHING_MM = 1e-6;

const lengthOf = (railroad: Railroad, edge: EdgeId): Millimetres => railroad.edges.get(edge)?.length ?? 0;

/** The part of the trail that the train lies on. */
export function liesOn(railroad: Railroad, { trail, shortMm, lengthMm }: LyingTrain): readonly Spot[] {
  let ahead = -shortMm;
  const part: Spot[] = [];
  for (const spot of trail) {
    if (part.length > 0 && ahead >= lengthMm - NOTHING_MM) break;
    part.push(spot);
    ahead += lengthOf(railroad, spot.edge);
  }
  return part;
}

export function blocksUnder(railroad: Railroad, train: LyingTrain): ReadonlySet<BlockId> {
  const blocks = liesOn(railroad, train).map(({ edge }) => railroad.blockOfEdge.get(edge));
  return new Set(blocks.filter((block) => block !== undefined));
}

/** The insulated crossings that lie under a train, between head and tail. */
export function diamondsUnder(railroad: Railroad, train: LyingTrain): ReadonlySet<NodeId> {
  const nodes = liesOn(railroad, train)
    .slice(1)
    .map(({ toward }) => railroad.nodes.get(toward));
  return new Set(nodes.flatMap((node) => (node?.kind === 'crossing' && node.insulated ? [node.id] : [])));
}

/** The train facing the other way, where it stands. */
export function facingBack(railroad: Railroad, train: LyingTrain): LyingTrain {
  const part = liesOn(railroad, train);
  const whole = part.reduce((sum, { edge }) => sum + lengthOf(railroad, edge), 0);
  const behind = whole - train.shortMm - train.lengthMm;
  return {
    trail: part.map((spot) => turned(railroad, spot)).reverse(),
    shortMm: behind < NOTHING_MM ? 0 : behind,
    lengthMm: train.lengthMm,
  };
}

/** Something that happens when the head comes to a node: a block is entered, a diamond passed, a lever needed. */
export interface Passing {
  /** How far the head has come since the run's start. */
  readonly atMm: Millimetres;
  readonly enters: BlockId | null;
  readonly diamond: NodeId | null;
  /** `trailed`: a self-lining turnout that the train moves itself, however it stood. */
  readonly lever: {
    readonly id: NodeId;
    readonly position: TurnoutPosition;
    readonly trailed: boolean;
  } | null;
  readonly gap: boolean;
  readonly block: BlockId;
}

export interface PossibleRun {
  readonly edges: readonly EdgeId[];
  readonly lengthMm: Millimetres;
  readonly passings: readonly Passing[];
  readonly after: LyingTrain;
}

/** Whether a throttle may feed a block: by its selector's dial, by wire, or by what is behind its toggles. */
export function mayBeFedBy(railroad: Railroad, block: BlockId, cab: ThrottleId): boolean {
  const seen: BlockId[] = [];
  for (let at = block; !seen.includes(at); ) {
    seen.push(at);
    const source = railroad.blocks.get(at)?.source;
    if (source === undefined) return false;
    if ('throttle' in source) return source.throttle === cab;
    if ('selector' in source)
      return railroad.selectors.get(source.selector)?.positions.includes(cab) === true;
    at = source.from;
  }
  return false;
}

/** The passing from the head's spot to the next; null where the train's own tail, dead track or the wiring forbids it. */
function passing(
  railroad: Railroad,
  here: LyingTrain,
  next: Spot,
  atMm: Millimetres,
  cab: ThrottleId | null,
): Passing | null {
  const head = here.trail[0];
  const node = head === undefined ? undefined : railroad.nodes.get(head.toward);
  const block = railroad.blockOfEdge.get(next.edge);
  if (head === undefined || node === undefined || block === undefined) return null;
  const entered = railroad.blockOfEdge.get(head.edge) !== block;
  if (
    entered &&
    (blocksUnder(railroad, here).has(block) || (cab !== null && !mayBeFedBy(railroad, block, cab)))
  )
    return null;
  const diamond = node.kind === 'crossing' && node.insulated ? node.id : null;
  if (diamond !== null && diamondsUnder(railroad, here).has(diamond)) return null;
  const way = onward(railroad, head).find(({ edge }) => edge === next.edge);
  const lever =
    way?.setting === undefined
      ? null
      : { id: node.id, position: way.setting, trailed: way.selfLined === true };
  return { atMm, enters: entered ? block : null, diamond, lever, gap: node.kind === 'gap', block };
}

/**
 * The runs of a train from where it lies, by its own length and wiring alone; other trains are not looked at.
 *
 * @param cab null: the wiring is not looked at
 */
export function possibleRuns(
  railroad: Railroad,
  train: LyingTrain,
  cab: ThrottleId | null,
): readonly PossibleRun[] {
  const head = train.trail[0];
  if (head === undefined) return [];
  const still = new Set(liesOn(railroad, train).map(({ edge }) => edge));
  const done: PossibleRun[] = [];
  const go = (
    here: LyingTrain,
    edges: readonly EdgeId[],
    lengthMm: Millimetres,
    passings: readonly Passing[],
  ): void => {
    const at = here.trail[0];
    if (at === undefined) return;
    const moved = edges.length > 0 || train.shortMm > 0;
    if (moved && isStop(railroad, at.toward)) {
      done.push({ edges, lengthMm, passings, after: { ...here, trail: liesOn(railroad, here) } });
      return;
    }
    for (const next of onward(railroad, at)) {
      if (still.has(next.edge) || edges.includes(next.edge)) continue;
      const passed = passing(railroad, here, next, lengthMm, cab);
      if (passed === null) continue;
      const spot: Spot = { edge: next.edge, toward: next.toward };
      go(
        { ...here, trail: [spot, ...here.trail] },
        [...edges, next.edge],
        lengthMm + lengthOf(railroad, next.edge),
        [...passings, passed],
      );
    }
  };
  // Drawing up to the end of its own edge enters nothing; from there on the head is at the end of an edge whenever it passes a node.
  go({ ...train, shortMm: 0 }, [], train.shortMm, []);
  return done;
}
