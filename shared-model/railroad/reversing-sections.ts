/**
 * Where a train can come back over an edge facing the other way without a reversal: a balloon, or a connection that turns it round.
 *
 * Such a way always parts and closes at one node: from the trunk of a turnout (or over a crossing with a slip) it leaves by one leg
 * and comes back by the other. So it is enough to look there, for the shortest ways; after each that was found the track is thought
 * cut in it, and the next one is looked for, so that each place is told once and not for every turnout from which it can be reached.
 */
import TinyQueue from 'tinyqueue';
import type { EdgeId, NodeId } from '../ids.ts';
import type { Finding } from '../refusal.ts';
import type { Millimetres } from '../units.ts';
import { finding, inWords } from './findings.ts';
import type { Railroad } from './railroad.ts';
import { makeRoute, type Stretch } from './route.ts';
import type { Spot } from './travel.ts';
import { type TrackGraph, trackGraph } from './way-graph.ts';

/** Faced the other way: the two states of an edge are neighbours. */
const mirror = (state: number): number => state ^ 1;

interface Turning {
  /** The turnout or crossing at which the way parts and closes. */
  readonly at: NodeId;
  /** From the edge entered by one leg to the edge come back by, as states. */
  readonly states: readonly number[];
  readonly lengthMm: Millimetres;
}

interface Reach {
  readonly state: number;
  readonly lengthMm: Millimetres;
  readonly before: Reach | null;
}

type IsCut = (state: number) => boolean;

/** The shortest way from one state to another that is shorter than a bound, as states from first to last; lengths of all its edges. */
function shortestWay(
  track: TrackGraph,
  lengthOf: (state: number) => Millimetres,
  from: number,
  to: number,
  isCut: IsCut,
  below: Millimetres,
): Omit<Turning, 'at'> | undefined {
  const done = new Set<number>();
  const queue = new TinyQueue<Reach>([], (a, b) => a.lengthMm - b.lengthMm);
  const visit = (state: number, lengthMm: Millimetres, before: Reach | null): void => {
    if (!isCut(state) && !done.has(state) && lengthMm < below) queue.push({ state, lengthMm, before });
  };
  visit(from, lengthOf(from), null);
  for (let at = queue.pop(); at !== undefined; at = queue.pop()) {
    if (done.has(at.state)) continue;
    done.add(at.state);
    if (at.state === to) {
      const states: number[] = [];
      for (let back: Reach | null = at; back !== null; back = back.before) states.unshift(back.state);
      return { states, lengthMm: at.lengthMm };
    }
    for (const step of track.graph.steps[at.state] ?? []) visit(step.to, at.lengthMm + step.length, at);
  }
  return undefined;
}

/**
 * Whether no way of any kind could turn a train round: the facings of all edges can be named "up" and "down" so that every step keeps
 * the name. Cheaper than looking for ways, and true of most railroads.
 */
function keepsFacing(track: TrackGraph, isCut: IsCut): boolean {
  const name = new Int8Array(track.spots.length);
  for (let first = 0; first < name.length; first += 1) {
    if (name[first] !== 0 || isCut(first)) continue;
    name[first] = 1;
    const waiting = [first];
    for (let state = waiting.pop(); state !== undefined; state = waiting.pop()) {
      const own = name[state] ?? 0;
      const same = [
        ...(track.graph.steps[state] ?? []).map((step) => step.to),
        ...(track.graph.into[state] ?? []).map((step) => step.from),
      ];
      if (name[mirror(state)] === own) return false;
      if (name[mirror(state)] === 0) {
        name[mirror(state)] = -own;
        waiting.push(mirror(state));
      }
      for (const next of same) {
        if (isCut(next)) continue;
        if (name[next] === -own) return false;
        if (name[next] === 0) {
          name[next] = own;
          waiting.push(next);
        }
      }
    }
  }
  return true;
}

/** The shortest turning way of all that is left of the track. */
function shortestTurning(railroad: Railroad, track: TrackGraph, isCut: IsCut): Turning | undefined {
  const lengthOf = (state: number): Millimetres => {
    const spot = track.spots[state];
    return (spot === undefined ? undefined : railroad.edges.get(spot.edge)?.length) ?? 0;
  };
  let best: Turning | undefined;
  track.graph.steps.forEach((steps, state) => {
    const [one, other] = steps;
    const at = track.spots[state]?.toward;
    if (one === undefined || other === undefined || at === undefined || isCut(state)) return;
    const below = best?.lengthMm ?? Number.POSITIVE_INFINITY;
    const way = shortestWay(track, lengthOf, one.to, mirror(other.to), isCut, below);
    if (way !== undefined) best = { at, ...way };
  });
  return best;
}

/** The stretch of a turning way that lies between two gaps in a block that is nowhere else on the way, and takes the longest train. */
function isolatedStretch(
  railroad: Railroad,
  way: readonly Spot[],
  longestMm: Millimetres,
): Stretch | undefined {
  if (way.some((spot) => !railroad.blockOfEdge.has(spot.edge))) return undefined;
  const stretches = makeRoute(railroad, way).stretches;
  return stretches.find((stretch, index) => {
    const left = stretches[index + 1]?.gap ?? null;
    const gaps = [stretch.gap, left].every(
      (node) => node !== null && railroad.nodes.get(node)?.kind === 'gap',
    );
    const alone = stretches.filter((other) => other.block === stretch.block).length === 1;
    const lengthMm = stretch.spots.reduce(
      (sum, { edge }) => sum + (railroad.edges.get(edge)?.length ?? 0),
      0,
    );
    return gaps && alone && lengthMm >= longestMm;
  });
}

interface ReversingSection {
  readonly at: NodeId;
  readonly way: readonly Spot[];
  readonly isolated: Stretch | undefined;
}

/** More than anybody builds; a bound so that a maze does not fill the screen. */
const MOST_TOLD = 24;

function reversingSections(railroad: Railroad): readonly ReversingSection[] {
  const track = trackGraph(railroad);
  const longestMm = Math.max(0, ...railroad.document.trains.map((train) => train.length));
  const cut = new Set<EdgeId>();
  const isCut = (state: number, also?: EdgeId): boolean => {
    const edge = track.spots[state]?.edge;
    return edge === undefined || edge === also || cut.has(edge);
  };
  const found: ReversingSection[] = [];
  while (found.length < MOST_TOLD && !keepsFacing(track, (state) => isCut(state))) {
    const turning = shortestTurning(railroad, track, (state) => isCut(state));
    if (turning === undefined) break;
    const way = turning.states.flatMap((state) => track.spots[state] ?? []);
    const isolated = isolatedStretch(railroad, way, longestMm);
    found.push({ at: turning.at, way, isolated });
    // Cut where it is isolated, so that a way beside it is still found; else where that leaves nothing that turns a train round.
    const enough = way.find((spot) => keepsFacing(track, (state) => isCut(state, spot.edge)));
    const where = isolated?.spots[0] ?? enough ?? way.at(-1);
    if (where !== undefined) cut.add(where.edge);
  }
  return found;
}

/**
 * Findings about reversing sections: information on three-rail; on two-rail an error, unless a stretch of the way as long as the
 * longest train lies between two gaps in one block of its own (then information, naming that block).
 */
export function auditReversing(railroad: Railroad): readonly Finding[] {
  const twoRail = railroad.document.system === 'two-rail-dc';
  return reversingSections(railroad).map(({ at, way, isolated }) => {
    const edges = way.map((spot) => spot.edge);
    const severity = twoRail && isolated === undefined ? 'error' : 'info';
    const says = `A train that runs over ${at} comes back to it over ${inWords(edges)}, facing the other way.`;
    const remedy = !twoRail
      ? 'Nothing is wrong with it on three-rail: the train turns round here.'
      : isolated === undefined
        ? 'Cut two gaps in it, at least as far apart as the longest train is long, and make the track between them a block of its own.'
        : `Set the polarity of block ${isolated.block} while the whole train is in it.`;
    return finding('reversing-section', severity)([at, ...edges], says, remedy);
  });
}
