/** Runs: how a train goes on from where it stands to the next gap or end of track, and what has to be free and set for that. */
import type { NodeId, ThrottleId } from '../ids.ts';
import type { TurnoutPosition } from '../railroad/document.ts';
import type { Millimetres } from '../units.ts';
import { HAIR_MM, makeStanding, type Standing } from './standing.ts';
import { canFeed, must, type TrackTable, type Way } from './track-table.ts';

export interface RunTrain {
  readonly lengthMm: Millimetres;
  /** Its cab; null: the wiring is not looked at. */
  readonly cab: ThrottleId | null;
}

/** A resource and how far the head (or the tail's clearing, told by the head) has come when it matters; from the run's start. */
export interface At {
  readonly resource: number;
  readonly atMm: Millimetres;
}

export interface Run {
  /** The spots entered, in order; none where a train that has changed its facing only draws up to the gap. */
  readonly spots: readonly number[];
  readonly lengthMm: Millimetres;
  /** Where it ends, before it is made one of a train's numbered standings. */
  readonly end: Standing;
  /** The blocks entered, each where the head crosses into it; the one entered first at 0. A gap inside a block enters none. */
  readonly enters: readonly At[];
  /** One block for each gap crossed, as the answer lists them: a gap inside a block counts. */
  readonly blocks: readonly number[];
  /** Diamonds passed, where the head comes to each. */
  readonly diamonds: readonly At[];
  /** Resources that its tail leaves on this run, with the head's way until then; at the earliest 0. */
  readonly clears: readonly At[];
  /** What no other train may have: the blocks entered, the parents of sections among them, the diamonds. Each once. */
  readonly wants: readonly number[];
  /** How the levers on the way have to stand. */
  readonly levers: readonly {
    readonly id: NodeId;
    readonly position: TurnoutPosition;
    readonly block: number;
  }[];
}

/** A piece of the way: from the tail of the standing train to the end of its run; the head is at 0 when the run starts. */
interface Piece {
  readonly spot: number;
  readonly block: number;
  readonly fromMm: Millimetres;
  readonly tillMm: Millimetres;
  /** How the piece is come upon from the one before; null for the last under the train. */
  readonly way: Way | null;
}

const wayTo = (table: TrackTable, spot: number, next: number): Way =>
  must(table.ways[spot]?.find((way) => way.to === next));

/** The pieces under a standing train, tail first. */
function piecesUnder(table: TrackTable, standing: Standing): Piece[] {
  const pieces: Piece[] = [];
  let till = standing.aheadMm;
  standing.spots.forEach((spot, index) => {
    const behind = standing.spots[index + 1];
    const from = till - must(table.lengthMm[spot]);
    const way = behind === undefined ? null : wayTo(table, behind, spot);
    pieces.push({ spot, block: must(table.blockOf[spot]), fromMm: from, tillMm: till, way });
    till = from;
  });
  return pieces.reverse();
}

/** All ways on from a standing, each as the spots up to the next gap or end; no edge twice, and none that the train lies on. */
function waysOn(table: TrackTable, standing: Standing): readonly (readonly number[])[] {
  const head = must(standing.spots[0]);
  const lainOn = new Set(standing.spots.map((spot) => spot >> 1));
  // A train whose head is short of a gap, since it has changed its facing, draws up to it first.
  if (standing.aheadMm > 0 && table.stops[head] === true) return [[]];
  const found: number[][] = [];
  const follow = (from: number, way: readonly number[]): void => {
    for (const { to } of must(table.ways[from])) {
      if (lainOn.has(to >> 1) || way.some((spot) => spot >> 1 === to >> 1)) continue;
      if (table.stops[to] === true) found.push([...way, to]);
      else follow(to, [...way, to]);
    }
  };
  follow(head, []);
  return found;
}

/**
 * Whether the train itself forbids a passage: its tail is still in the block that its head enters, or on the diamond.
 * A block that it never left, over a gap with that block on both sides, is not entered at all.
 */
function inItsOwnWay(pieces: readonly Piece[], index: number, lengthMm: Millimetres): boolean {
  const piece = must(pieces[index]);
  const tail = piece.fromMm - lengthMm + HAIR_MM;
  const before = pieces[index - 1];
  const stillIn = (other: Piece, place: number): boolean =>
    place < index && other.block === piece.block && other.tillMm > tail;
  if (before?.block !== piece.block && pieces.some(stillIn)) return true;
  const diamond = piece.way?.diamond ?? -1;
  return (
    diamond >= 0 &&
    pieces.some((other, place) => place < index && other.way?.diamond === diamond && other.fromMm > tail)
  );
}

function clearsOf(pieces: readonly Piece[], lengthMm: Millimetres, runMm: Millimetres): readonly At[] {
  const last = new Map<number, Millimetres>();
  for (const { block, tillMm, way, fromMm } of pieces) {
    if (block >= 0) last.set(block, tillMm);
    if (way !== null && way.diamond >= 0) last.set(way.diamond, fromMm);
  }
  return [...last].flatMap(([resource, till]) => {
    const atMm = Math.max(0, till + lengthMm);
    return atMm <= runMm + HAIR_MM && atMm > HAIR_MM ? [{ resource, atMm: Math.min(atMm, runMm) }] : [];
  });
}

function makeRun(
  table: TrackTable,
  train: RunTrain,
  standing: Standing,
  under: readonly Piece[],
  spots: readonly number[],
): Run | null {
  const pieces = [...under];
  let from = must(standing.spots[0]);
  let till = standing.aheadMm;
  const enters: At[] = [];
  const blocks: number[] = [];
  const diamonds: At[] = [];
  const levers: Run['levers'][number][] = [];
  for (const spot of spots) {
    const way = wayTo(table, from, spot);
    const block = must(table.blockOf[spot]);
    if (block < 0) return null;
    pieces.push({ spot, block, fromMm: till, tillMm: till + must(table.lengthMm[spot]), way });
    const entered = block !== table.blockOf[from];
    if (entered && train.cab !== null && !canFeed(table, block, train.cab)) return null;
    if (inItsOwnWay(pieces, pieces.length - 1, train.lengthMm)) return null;
    if (entered) enters.push({ resource: block, atMm: till });
    if (entered || way.gap) blocks.push(block);
    if (way.diamond >= 0) diamonds.push({ resource: way.diamond, atMm: till });
    if (way.lever !== null) levers.push({ ...way.lever, block });
    till += must(table.lengthMm[spot]);
    from = spot;
  }
  const parents = train.cab === null ? [] : enters.flatMap(({ resource }) => must(table.parents[resource]));
  const wants = new Set([
    ...enters.map(({ resource }) => resource),
    ...parents,
    ...diamonds.map(({ resource }) => resource),
  ]);
  return {
    spots,
    lengthMm: till,
    end: makeStanding(table, [...[...spots].reverse(), ...standing.spots], 0, train.lengthMm),
    enters,
    blocks,
    diamonds,
    clears: clearsOf(pieces, train.lengthMm, till),
    wants: [...wants],
    levers,
  };
}

/**
 * Every run from where a train stands, in the order of the ways on.
 *
 * A run crosses one gap and ends at the next gap or end of track. It is none if the train's own tail is in its way, if the cab cannot
 * feed a block that it enters, or if it enters an edge that the train lies on; what other trains are in its way is for the caller.
 */
export function runsFrom(table: TrackTable, train: RunTrain, standing: Standing): readonly Run[] {
  const under = piecesUnder(table, standing);
  return waysOn(table, standing).flatMap((spots) => makeRun(table, train, standing, under, spots) ?? []);
}
