/** A graph of states and steps for the route search: what `travel.ts` says, as numbers, worked out once for a railroad. */
import type { BlockId, EdgeId, NodeId } from '../ids.ts';
import type { TurnoutPosition } from './document.ts';
import type { Railroad } from './railroad.ts';
import { isThrown, onward, type Spot } from './travel.ts';

/** One way on from a state. */
export interface Step {
  readonly from: number;
  readonly to: number;
  /** What it costs: millimetres of the edge entered; 0 for a reversal, which enters none. */
  readonly length: number;
  /** Place of the edge entered among all edge ids compared as strings; null for a reversal. */
  readonly rank: number | null;
  /** The turnout passed, by its number, and how it has to stand; null where nothing is thrown. */
  readonly lever: {
    readonly number: number;
    readonly position: TurnoutPosition;
    /** The train moves it itself: it need not stand so. */
    readonly selfLined: boolean;
  } | null;
}

export interface WayGraph {
  /** The steps out of each state. */
  readonly steps: readonly (readonly Step[])[];
  /** The steps into each state. */
  readonly into: readonly (readonly Step[])[];
  /** The place of each state: a path without loops is at no place twice, but that it may end where it once was. */
  readonly place: readonly number[];
}

/** Completes a graph whose steps out of each state are given. */
export function makeWayGraph(steps: readonly (readonly Step[])[], place: readonly number[]): WayGraph {
  const into: Step[][] = steps.map(() => []);
  for (const ways of steps) for (const step of ways) into[step.to]?.push(step);
  return { steps, into, place };
}

/** The states of a railroad: every edge in both facings. */
export interface TrackGraph {
  readonly graph: WayGraph;
  readonly spots: readonly Spot[];
  readonly blocks: readonly (BlockId | undefined)[];
  /** The state of a spot; undefined when it is none of this railroad. */
  readonly stateOf: (spot: Spot) => number | undefined;
  readonly leverNumber: ReadonlyMap<NodeId, number>;
}

const built = new WeakMap<Railroad, TrackGraph>();

/** Compares ids as strings, by UTF-16 units: the order in which ties between routes are broken. */
export function compareIds(a: string, b: string): number {
  return a < b ? -1 : a > b ? 1 : 0;
}

function build(railroad: Railroad): TrackGraph {
  const { edges, nodes } = railroad.document;
  const rankOf = new Map(
    edges
      .map((edge) => edge.id)
      .sort(compareIds)
      .map((id, rank): [EdgeId, number] => [id, rank]),
  );
  const levers = nodes.filter(isThrown).map((node) => node.id);
  const leverNumber = new Map(levers.map((id, number): [NodeId, number] => [id, number]));
  const spots = edges.flatMap((edge): Spot[] => edge.between.map((toward) => ({ edge: edge.id, toward })));
  const numberOf = new Map(edges.map((edge, index) => [edge.id, index]));
  const stateOf = (spot: Spot): number | undefined => {
    const number = numberOf.get(spot.edge);
    const end = number === undefined ? -1 : (edges[number]?.between.indexOf(spot.toward) ?? -1);
    return number === undefined || end < 0 ? undefined : number * 2 + end;
  };
  const steps = spots.map((spot, from) =>
    onward(railroad, spot).map((next): Step => {
      const lever = leverNumber.get(next.through);
      return {
        from,
        to: stateOf(next) ?? from,
        length: railroad.edges.get(next.edge)?.length ?? 0,
        rank: rankOf.get(next.edge) ?? 0,
        lever:
          lever === undefined || next.setting === undefined
            ? null
            : { number: lever, position: next.setting, selfLined: next.selfLined === true },
      };
    }),
  );
  return {
    graph: makeWayGraph(
      steps,
      spots.map((_, state) => state),
    ),
    spots,
    blocks: spots.map((spot) => railroad.blockOfEdge.get(spot.edge)),
    stateOf,
    leverNumber,
  };
}

/** The track graph of a railroad, worked out at the first question and kept with it. */
export function trackGraph(railroad: Railroad): TrackGraph {
  const known = built.get(railroad);
  if (known !== undefined) return known;
  const made = build(railroad);
  built.set(railroad, made);
  return made;
}
