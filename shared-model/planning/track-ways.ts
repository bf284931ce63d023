/** The ways on from a spot to the next gap or end of track: what is the same for every train, worked out once for a railroad. */
import type { Millimetres } from '../units.ts';
import { type Lever, must, type TrackTable } from './track-table.ts';

/** A resource and how far the head (or the tail's clearing, told by the head) has come when it matters; from the run's start. */
export interface At {
  readonly resource: number;
  readonly atMm: Millimetres;
}

/** A piece of a train's way: one edge, from where to where it lies when the head is at 0 as the run starts. */
export interface Piece {
  readonly block: number;
  readonly fromMm: Millimetres;
  readonly tillMm: Millimetres;
  /** The diamond passed when it is come upon; -1 where there is none. */
  readonly diamond: number;
}

export interface TrackWay {
  /** The spots entered, in order. */
  readonly spots: readonly number[];
  readonly pieces: readonly Piece[];
  readonly lengthMm: Millimetres;
  /** The blocks entered, each where the head crosses into it. A gap inside a block enters none. */
  readonly enters: readonly At[];
  /** One block for each gap crossed: a gap inside a block counts. */
  readonly blocks: readonly number[];
  /** Diamonds passed, where the head comes to each. */
  readonly diamonds: readonly At[];
  /** The blocks entered, the parents of sections among them, the diamonds; each once. */
  readonly wants: readonly number[];
  /** The same without the parents, for a train whose wiring is not looked at. */
  readonly wantsUnfed: readonly number[];
  readonly levers: readonly Lever[];
}

function makeWay(table: TrackTable, head: number, spots: readonly number[]): TrackWay | null {
  const pieces: Piece[] = [];
  const enters: At[] = [];
  const blocks: number[] = [];
  const diamonds: At[] = [];
  const levers: Lever[] = [];
  let from = head;
  let till = 0;
  for (const spot of spots) {
    const way = must(table.ways[from]?.find(({ to }) => to === spot));
    const block = must(table.blockOf[spot]);
    if (block < 0) return null;
    const entered = block !== table.blockOf[from];
    if (entered) enters.push({ resource: block, atMm: till });
    if (entered || way.gap) blocks.push(block);
    if (way.diamond >= 0) diamonds.push({ resource: way.diamond, atMm: till });
    if (way.lever !== null) levers.push(way.lever);
    const lengthMm = must(table.lengthMm[spot]);
    pieces.push({ block, fromMm: till, tillMm: till + lengthMm, diamond: way.diamond });
    till += lengthMm;
    from = spot;
  }
  const own = [...enters, ...diamonds].map(({ resource }) => resource);
  const parents = enters.flatMap(({ resource }) => must(table.parents[resource]));
  return {
    spots,
    pieces,
    lengthMm: till,
    enters,
    blocks,
    diamonds,
    wants: [...new Set([...own, ...parents])],
    wantsUnfed: [...new Set(own)],
    levers,
  };
}

function makeWays(table: TrackTable, head: number): readonly TrackWay[] {
  const found: TrackWay[] = [];
  const follow = (from: number, way: readonly number[]): void => {
    for (const { to } of must(table.ways[from])) {
      if (way.some((spot) => spot >> 1 === to >> 1)) continue;
      const longer = [...way, to];
      if (table.stops[to] !== true) follow(to, longer);
      else {
        const made = makeWay(table, head, longer);
        if (made !== null) found.push(made);
      }
    }
  };
  follow(head, []);
  return found;
}

const known = new WeakMap<TrackTable, (readonly TrackWay[] | undefined)[]>();

/** All ways on from the end of a spot, up to the next gap or end; none over dead track, none over one edge twice. */
export function waysFrom(table: TrackTable, head: number): readonly TrackWay[] {
  let all = known.get(table);
  if (all === undefined) {
    all = [];
    known.set(table, all);
  }
  const there = all[head];
  if (there !== undefined) return there;
  const made = makeWays(table, head);
  all[head] = made;
  return made;
}
