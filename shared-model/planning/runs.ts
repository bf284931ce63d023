/** Runs: how a train goes on from where it stands to the next gap or end of track, and what has to be free and set for that. */
import type { ThrottleId } from '../ids.ts';
import type { Millimetres } from '../units.ts';
import { diamondBetween, HAIR_MM, type Standing } from './standing.ts';
import { canFeed, must, type TrackTable } from './track-table.ts';
import { type At, type Piece, type TrackWay, waysFrom } from './track-ways.ts';

export interface RunTrain {
  readonly lengthMm: Millimetres;
  /** Its cab; null: the wiring is not looked at. */
  readonly cab: ThrottleId | null;
  /** Resources in which cars stand that it has picked up. */
  readonly beyond?: readonly number[];
}

/** Its ways and what it enters are those of the track (`TrackWay`); a train that only draws up to a gap has no spots. */
export interface Run extends Omit<TrackWay, 'pieces' | 'wantsUnfed'> {
  /** Where it ends, before it is made one of a train's numbered standings. */
  readonly end: Standing;
  /** Resources that its tail leaves on this run, with the head's way until then; at the earliest 0. */
  readonly clears: readonly At[];
}

const moved = (ats: readonly At[], byMm: Millimetres): readonly At[] =>
  byMm === 0 ? ats : ats.map(({ resource, atMm }) => ({ resource, atMm: atMm + byMm }));

/** A way as a train comes to it whose head is still so far from it. */
function wayAhead(way: TrackWay, aheadMm: Millimetres): TrackWay {
  if (aheadMm === 0) return way;
  return {
    ...way,
    lengthMm: way.lengthMm + aheadMm,
    pieces: way.pieces.map((piece) => ({
      ...piece,
      fromMm: piece.fromMm + aheadMm,
      tillMm: piece.tillMm + aheadMm,
    })),
    enters: moved(way.enters, aheadMm),
    diamonds: moved(way.diamonds, aheadMm),
  };
}

const drawingUp = (aheadMm: Millimetres): TrackWay => ({
  spots: [],
  pieces: [],
  lengthMm: aheadMm,
  enters: [],
  blocks: [],
  diamonds: [],
  wants: [],
  wantsUnfed: [],
  levers: [],
});

/** The pieces under a standing train, tail first. */
function piecesUnder(table: TrackTable, { spots, aheadMm }: Standing): Piece[] {
  const pieces: Piece[] = [];
  let till = aheadMm;
  for (const [index, spot] of spots.entries()) {
    const behind = spots[index + 1];
    const from = till - must(table.lengthMm[spot]);
    const diamond = behind === undefined ? -1 : diamondBetween(table, behind, spot);
    pieces.push({ block: must(table.blockOf[spot]), fromMm: from, tillMm: till, diamond });
    till = from;
  }
  return pieces.reverse();
}

/**
 * Whether the train itself forbids a passage: its tail is still in the block that its head enters, or on the diamond.
 * A block that it never left, over a gap with that block on both sides, is not entered at all.
 */
function inItsOwnWay(pieces: readonly Piece[], first: number, lengthMm: Millimetres): boolean {
  for (let index = first; index < pieces.length; index += 1) {
    const { block, diamond, fromMm } = must(pieces[index]);
    const tail = fromMm - lengthMm + HAIR_MM;
    const entered = pieces[index - 1]?.block !== block;
    for (let place = index - 1; place >= 0; place -= 1) {
      const other = must(pieces[place]);
      if (other.tillMm <= tail) break;
      if (entered && other.block === block) return true;
      if (diamond >= 0 && other.diamond === diamond && other.fromMm > tail) return true;
    }
  }
  return false;
}

function clearsOf(pieces: readonly Piece[], lengthMm: Millimetres, runMm: Millimetres): readonly At[] {
  const clears: At[] = [];
  const last: number[] = [];
  const clear = (resource: number, till: Millimetres): void => {
    if (resource < 0 || last.includes(resource)) return;
    last.push(resource);
    const atMm = Math.max(0, till + lengthMm);
    if (atMm <= runMm + HAIR_MM && atMm > HAIR_MM) clears.push({ resource, atMm: Math.min(atMm, runMm) });
  };
  for (let place = pieces.length - 1; place >= 0; place -= 1) {
    const { block, tillMm, diamond, fromMm } = must(pieces[place]);
    clear(block, tillMm);
    clear(diamond, fromMm);
  }
  return clears.reverse();
}

/**
 * Every run from where a train stands, in the order of the ways on.
 *
 * A run crosses one gap and ends at the next gap or end of track. It is none if the train's own tail is in its way, if the cab cannot
 * feed a block that it enters, or if it enters an edge that the train lies on; what other trains are in its way is for the caller.
 *
 * @param endOf the standing with its head at the end of the first of these spots
 */
export function runsFrom(
  table: TrackTable,
  { lengthMm, cab }: RunTrain,
  standing: Standing,
  endOf: (trail: readonly number[]) => Standing,
): readonly Run[] {
  const { spots: trail, aheadMm } = standing;
  const head = must(trail[0]);
  // A train whose head is short of a gap, since it has changed its facing, draws up to it first.
  const ways = aheadMm > 0 && table.stops[head] === true ? [drawingUp(0)] : waysFrom(table, head);
  const under = piecesUnder(table, standing);
  const runs: Run[] = [];
  for (const onTrack of ways) {
    if (onTrack.spots.some((spot) => trail.some((lain) => lain >> 1 === spot >> 1))) continue;
    if (cab !== null && !onTrack.enters.every(({ resource }) => canFeed(table, resource, cab))) continue;
    const { spots, pieces, enters, blocks, diamonds, wants, wantsUnfed, levers, ...way } = wayAhead(
      onTrack,
      aheadMm,
    );
    const all = [...under, ...pieces];
    if (inItsOwnWay(all, under.length, lengthMm)) continue;
    runs.push({
      spots,
      lengthMm: way.lengthMm,
      end: endOf([...[...spots].reverse(), ...trail]),
      enters,
      blocks,
      diamonds,
      clears: clearsOf(all, lengthMm, way.lengthMm),
      wants: cab === null ? wantsUnfed : wants,
      levers,
    });
  }
  return runs;
}
