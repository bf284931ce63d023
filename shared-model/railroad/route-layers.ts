/**
 * The track graph once for every stage of a question: how many of the named blocks were entered, how many reversals were made, and
 * whether the train has just reversed (then it has to go on before it may end or reverse again).
 */
import type { BlockId, NodeId } from '../ids.ts';
import type { Railroad } from './railroad.ts';
import { isStop, isThrown, onward, type Spot, turned } from './travel.ts';
import { makeWayGraph, type Step, type TrackGraph, type WayGraph } from './way-graph.ts';

export interface LayerOptions {
  readonly via: readonly BlockId[];
  readonly reversals: number;
  readonly trainLengthMm: number;
}

export interface Layers {
  readonly graph: WayGraph;
  /** The state of the track graph that a state is made of; the first layer has the same numbers. */
  readonly spotOf: (state: number) => number;
  /** The states of a spot in which a path may end: every named block was entered, and the last thing was to enter an edge. */
  readonly endsAt: (spot: number) => readonly number[];
}

const thrownAt = (railroad: Railroad, id: NodeId): boolean => {
  const node = railroad.nodes.get(id);
  return node !== undefined && isThrown(node);
};

/** Whether a train of this length with its head at the spot has the last turnout behind it: the track between takes it whole. */
function isClearOfTurnout(railroad: Railroad, head: Spot, trainLengthMm: number): boolean {
  let back = turned(railroad, head);
  let clear = railroad.edges.get(head.edge)?.length ?? 0;
  for (let seen = 0; clear < trainLengthMm && seen <= railroad.edges.size; seen += 1) {
    const next = thrownAt(railroad, back.toward) ? undefined : onward(railroad, back)[0];
    if (next === undefined) return false;
    back = next;
    clear += railroad.edges.get(next.edge)?.length ?? 0;
  }
  return clear >= trainLengthMm;
}

const plain = (track: TrackGraph): Layers => ({
  graph: track.graph,
  spotOf: (state) => state,
  endsAt: (spot) => [spot],
});

/** Where a reversal on each spot leads; -1 where none may be made: not at a gap or an end, or not clear of the turnout. */
function reversalTargets(railroad: Railroad, track: TrackGraph, trainLengthMm: number): readonly number[] {
  return track.spots.map((spot, state) =>
    isStop(railroad, spot.toward) && isClearOfTurnout(railroad, spot, trainLengthMm) ? state ^ 1 : -1,
  );
}

/** Makes the layers that a question needs; a question without named blocks and reversals is asked of the track graph itself. */
export function layerWays(railroad: Railroad, track: TrackGraph, options: LayerOptions): Layers {
  const { via, reversals, trainLengthMm } = options;
  if (via.length === 0 && reversals === 0) return plain(track);
  const size = track.spots.length;
  const sides = reversals > 0 ? 2 : 1;
  const perStage = size * sides * (reversals + 1);
  const stateOf = (stage: number, made: number, side: number, spot: number): number =>
    stage * perStage + (made * sides + side) * size + spot;
  const stageAfter = (stage: number, spot: number): number =>
    stage < via.length && via[stage] === track.blocks[spot] ? stage + 1 : stage;
  const targets = reversals > 0 ? reversalTargets(railroad, track, trainLengthMm) : [];
  const steps: Step[][] = [];
  const place: number[] = [];
  for (let stage = 0; stage <= via.length; stage += 1)
    for (let made = 0; made <= reversals; made += 1)
      for (let side = 0; side < sides; side += 1)
        for (let spot = 0; spot < size; spot += 1) {
          const from = stateOf(stage, made, side, spot);
          const ways = (track.graph.steps[spot] ?? []).map((step) => ({
            ...step,
            from,
            to: stateOf(stageAfter(stage, step.to), made, 0, step.to),
          }));
          const target = side === 0 && made < reversals ? (targets[spot] ?? -1) : -1;
          steps[from] =
            target < 0
              ? ways
              : [
                  ...ways,
                  { from, to: stateOf(stage, made + 1, 1, target), length: 0, rank: null, lever: null },
                ];
          place[from] = stage * size + spot;
        }
  return {
    graph: makeWayGraph(steps, place),
    spotOf: (state) => state % size,
    endsAt: (spot) => Array.from({ length: reversals + 1 }, (_, made) => stateOf(via.length, made, 0, spot)),
  };
}
