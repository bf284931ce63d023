/** A train of the simulated crew: the way that it was given, where its head is on it, and what it is about to do. */
import type { BlockId, EdgeId, TrainId } from '../../../shared-model/ids.ts';
import type { PlanMove } from '../../../shared-model/planning/plan-answer.ts';
import type { SituationTrain } from '../../../shared-model/planning/situation.ts';
import type { Railroad } from '../../../shared-model/railroad/railroad.ts';
import type { AuthorityNow } from '../../../shared-model/session/state.ts';
import { modelSpeed } from '../../../shared-model/units.ts';

/** Lengths and times are sums in floating point; this much is nothing. */
export const HAIR = 1e-6;

/** An edge of the way. Millimetres of the head from where it stood at first. */
export interface Piece {
  readonly edge: EdgeId;
  readonly block: BlockId;
  readonly fromMm: number;
  readonly tillMm: number;
  /** The place of the order by which it was given; -1 for what was under the train at first. */
  readonly order: number;
}

export interface Engine {
  readonly id: TrainId;
  readonly lengthMm: number;
  /** Millimetres a second: as it was planned, and now. */
  readonly planned: number;
  speed: number;
  /** The share of the planned speed that its engineer keeps after this start, when nothing is in the way. */
  pace: number;
  /** What is under it at first, then what it was given. */
  readonly path: Piece[];
  /** The authority that it goes by, and how many of its spots are in the path. */
  authority: { readonly id: string; readonly spots: number } | null;
  /** The head's place when something last happened to it, and the moment: before the beginning at first. */
  mm: number;
  since: number;
  doing: 'stands' | 'starts' | 'runs';
  /** Whether the words before its next start were said while it still ran. */
  isTold: boolean;
  /** Of a start: when it departs. */
  departs: number;
  move: { readonly start: number; readonly edges: EdgeId[]; readonly blocks: BlockId[] } | null;
  /** Pieces whose blocks the tail has left. */
  readonly cleared: Set<number>;
}

const lengthOf = (railroad: Railroad, edge: EdgeId): number => railroad.edges.get(edge)?.length ?? 0;

function blockOf(railroad: Railroad, edge: EdgeId): BlockId {
  const block = railroad.blockOfEdge.get(edge);
  if (block === undefined) throw new Error(`${edge} is in no block`);
  return block;
}

export function newEngine(railroad: Railroad, train: SituationTrain): Engine {
  let tillMm = 0;
  const under = train.trail.map(({ edge }): Piece => {
    const fromMm = tillMm - lengthOf(railroad, edge);
    const piece = { edge, block: blockOf(railroad, edge), fromMm, tillMm, order: -1 };
    tillMm = fromMm;
    return piece;
  });
  return {
    id: train.id,
    lengthMm: train.lengthMm,
    planned: modelSpeed(train.mph, railroad.document.scaleRatio),
    speed: modelSpeed(train.mph, railroad.document.scaleRatio),
    pace: 1,
    path: under.reverse(),
    authority: null,
    mm: 0,
    since: -1,
    doing: 'stands',
    isTold: false,
    departs: 0,
    move: null,
    cleared: new Set(),
  };
}

/** Takes the spots of a grant that the engineer did not know of yet. */
export function lengthen(
  railroad: Railroad,
  engine: Engine,
  id: string,
  { legs }: AuthorityNow,
  order: number,
): void {
  const spots = legs.flatMap((leg) => leg.spots);
  // A new authority begins with the spot on which the head stands.
  const known = engine.authority?.id === id ? engine.authority.spots : 1;
  for (const { edge } of spots.slice(known)) {
    const fromMm = engine.path.at(-1)?.tillMm ?? 0;
    const tillMm = fromMm + lengthOf(railroad, edge);
    engine.path.push({ edge, block: blockOf(railroad, edge), fromMm, tillMm, order });
  }
  engine.authority = { id, spots: spots.length };
}

/** The order by which it goes on from where it is, or by which it came there; -1 where it has had none. */
export const orderAhead = ({ path, mm }: Engine): number =>
  (path.find(({ fromMm }) => fromMm > mm - HAIR) ?? path.at(-1))?.order ?? -1;

/** The piece that begins where the head is. */
export const pieceAhead = ({ path, mm }: Engine): Piece | undefined =>
  path.find(({ fromMm }) => Math.abs(fromMm - mm) < HAIR);
/** The piece that ends where the head is. */
export const pieceBehind = ({ path, mm }: Engine): Piece | undefined =>
  path.find(({ tillMm }) => Math.abs(tillMm - mm) < HAIR);

/** Pieces at whose end the train goes from one block into another, with their place in the path. */
function lastOfBlocks({ path }: Engine): readonly { readonly piece: Piece; readonly place: number }[] {
  return path.flatMap((piece, place) => {
    const next = path[place + 1];
    return next !== undefined && next.block !== piece.block ? [{ piece, place }] : [];
  });
}

/** The places ahead at which it may have to stop, with what comes before and after each, and when it is there: now for one that stands there. */
export const stopsAhead = (
  { path, mm, since, speed, doing }: Engine,
  now: number,
): readonly { readonly before: Piece | undefined; readonly next: Piece; readonly at: number }[] =>
  path.flatMap((next, place) => {
    const isHere = Math.abs(next.fromMm - mm) < HAIR;
    if (doing === 'runs' ? next.fromMm < mm + HAIR : !isHere) return [];
    const at = doing === 'runs' ? since + (next.fromMm - mm) / speed : now;
    return [{ before: path[place - 1], next, at }];
  });

/** An engineer who would have to stop for a moment runs so much slower instead, and no more. */
const EASED = 0.9;

/** A place at which a train stands or comes to, when it is there, and from when on its way goes on beyond. */
export interface WayOn {
  readonly order: number;
  readonly mm: number;
  readonly at: number;
  readonly goesOn: number;
}

/** Sets the speed so that the head comes to a place when the way is free there, where a little less speed is enough. Gives whether it is less now. */
export function ease(engine: Engine, now: number, ways: readonly WayOn[]): boolean {
  const cruise = engine.planned * engine.pace;
  const mm = engine.mm + (now - engine.since) * engine.speed;
  const enough = ways
    .map(({ mm: place, goesOn }) => (goesOn <= now ? cruise : (place - mm) / (goesOn - now)))
    .find((speed) => speed < cruise);
  const speed = enough !== undefined && enough >= EASED * cruise ? enough : cruise;
  if (Math.abs(speed - engine.speed) < HAIR) return false;
  engine.mm = mm;
  engine.since = now;
  engine.speed = speed;
  return speed < cruise;
}

/** When a running train comes to its next place: the end of an edge, or where its tail is clear of a block. */
export function nextPlace(engine: Engine): { readonly mm: number; readonly at: number } {
  const tails = lastOfBlocks(engine)
    .filter(({ place }) => !engine.cleared.has(place))
    .map(({ piece }) => piece.tillMm + engine.lengthMm);
  const places = [...engine.path.map(({ tillMm }) => tillMm), ...tails];
  const mm = Math.min(...places.filter((place) => place > engine.mm + HAIR));
  return { mm, at: engine.since + (mm - engine.mm) / engine.speed };
}

/** The blocks that the tail has left since this was asked last. */
export function newlyCleared(engine: Engine): readonly BlockId[] {
  return lastOfBlocks(engine).flatMap(({ piece, place }) => {
    if (engine.cleared.has(place) || engine.mm < piece.tillMm + engine.lengthMm - HAIR) return [];
    engine.cleared.add(place);
    return [piece.block];
  });
}

/** The move that a train ends now; null where it made none. */
export function endedMove({ id, move }: Engine, end: number): PlanMove | null {
  return move === null || move.edges.length === 0
    ? null
    : { train: id, start: move.start, end, edges: move.edges, blocks: move.blocks };
}
