/** The course of one train through a plan, by the checker's own reading: what it has when, from its moves alone. */
import type { BlockId, NodeId, ThrottleId } from '../../ids.ts';
import type { TurnoutPosition } from '../../railroad/document.ts';
import type { Railroad } from '../../railroad/railroad.ts';
import { modelSpeed, type Seconds } from '../../units.ts';
import type { PlanOptions } from '../plan/options.ts';
import type { PlanMove } from '../plan-answer.ts';
import type { SituationTrain } from '../situation.ts';
import {
  blocksUnder,
  diamondsUnder,
  type LyingTrain,
  type PossibleRun,
  possibleRuns,
} from './lying-train.ts';

/** Something that is wrong with a plan: in words, which trains, blocks and knobs it is about, and when. */
export interface PlanFault {
  readonly says: string;
  readonly about: readonly string[];
  /** Null where it is about no moment. */
  readonly at: Seconds | null;
}

/** Times are compared to this. */
export const TOLERANCE: Seconds = 0.002;

/** What a train has from a moment until another, half open. */
export interface Held {
  readonly train: SituationTrain;
  readonly what: BlockId | NodeId;
  readonly from: Seconds;
  readonly till: Seconds;
}

/** A block entered: what has to stand right at that moment. */
export interface Entry {
  readonly train: SituationTrain;
  readonly cab: ThrottleId;
  readonly block: BlockId;
  readonly at: Seconds;
  readonly levers: readonly { readonly id: NodeId; readonly position: TurnoutPosition }[];
}

/** A self-lining turnout that a train trails and so moves. */
interface Trailed {
  readonly id: NodeId;
  readonly to: TurnoutPosition;
  readonly at: Seconds;
}

export interface Course {
  readonly held: readonly Held[];
  readonly trailed: readonly Trailed[];
  readonly entries: readonly Entry[];
  readonly last: LyingTrain;
  /** From when on it stands for good. */
  readonly restsFrom: Seconds;
  readonly faults: readonly PlanFault[];
}

/** The runs whose edges, one after the other, are those of a move. */
function runsOf(
  railroad: Railroad,
  from: LyingTrain,
  cab: ThrottleId,
  edges: readonly string[],
): readonly PossibleRun[] | null {
  if (edges.length === 0) return [];
  for (const run of possibleRuns(railroad, from, cab)) {
    if (run.edges.length === 0 || !run.edges.every((edge, index) => edges[index] === edge)) continue;
    const rest = runsOf(railroad, run.after, cab, edges.slice(run.edges.length));
    if (rest !== null) return [run, ...rest];
  }
  return null;
}

/** Follows a train through its moves. */
export function courseOf(
  railroad: Railroad,
  train: SituationTrain,
  moves: readonly PlanMove[],
  options: PlanOptions,
): Course {
  const faults: PlanFault[] = [];
  const wrong = (at: Seconds, says: string): void => {
    faults.push({ says, about: [train.id], at });
  };
  const speed = modelSpeed(train.mph, railroad.document.scaleRatio);
  const held: Held[] = [];
  const entries: Entry[] = [];
  const trailed: Trailed[] = [];
  let here: LyingTrain = { trail: train.trail, shortMm: 0, lengthMm: train.lengthMm };
  const since = new Map<BlockId | NodeId, Seconds>();
  for (const what of [...blocksUnder(railroad, here), ...diamondsUnder(railroad, here)])
    since.set(what, Number.NEGATIVE_INFINITY);
  let before: Seconds | null = null;

  /** What the tail leaves while the head goes from one place to another at full speed. */
  const leave = (run: PossibleRun, from: LyingTrain, departs: Seconds): void => {
    // The way under and ahead of the train as distances from the run's start: where the front of each piece lies.
    let front = from.shortMm;
    const fronts = new Map<BlockId | NodeId, number>();
    for (const spot of from.trail) {
      const block = railroad.blockOfEdge.get(spot.edge);
      if (block !== undefined && !fronts.has(block)) fronts.set(block, front);
      front -= railroad.edges.get(spot.edge)?.length ?? 0;
      const node = spot === from.trail.at(-1) ? undefined : nodeBehind(railroad, from, spot);
      if (node !== undefined && !fronts.has(node)) fronts.set(node, front);
    }
    const ahead: [BlockId | NodeId, number][] = run.passings.flatMap(({ block, diamond, atMm }, index) => {
      const end = run.passings[index + 1]?.atMm ?? run.lengthMm;
      return [
        [block, end] as [BlockId, number],
        ...(diamond === null ? [] : [[diamond, atMm] as [NodeId, number]]),
      ];
    });
    for (const [what, end] of ahead) fronts.set(what, end);
    const still = new Set([...blocksUnder(railroad, run.after), ...diamondsUnder(railroad, run.after)]);
    for (const [what, start] of [...since]) {
      const end = fronts.get(what);
      if (still.has(what) || end === undefined) continue;
      held.push({ train, what, from: start, till: departs + (end + train.lengthMm) / speed });
      since.delete(what);
    }
  };

  for (const [index, move] of moves.entries()) {
    const name = `move ${index + 1} of ${train.id}`;
    if (train.to === null) wrong(move.start, `${name}: it is parked`);
    if (before === null && move.start < train.notBefore - TOLERANCE)
      wrong(move.start, `${name} starts at ${move.start}, before ${train.notBefore}`);
    if (move.start < -TOLERANCE || (before !== null && move.start < before - TOLERANCE))
      wrong(move.start, `${name} starts before the one before it has ended`);
    const touches = before !== null && move.start <= before + TOLERANCE;
    const runs = runsOf(railroad, here, train.cab, move.edges);
    if (runs === null || runs.length === 0) {
      wrong(move.start, `${name}: no run leads over ${move.edges.join(' ')}`);
      break;
    }
    const blocks = runs.flatMap(({ passings }) =>
      passings.filter(({ gap, enters }) => gap || enters !== null).map(({ block }) => block),
    );
    if (blocks.join() !== move.blocks.join())
      wrong(move.start, `${name} enters ${blocks.join(' ')}, not ${move.blocks.join(' ')}`);
    let departs = move.start + (touches ? 0 : options.startSeconds);
    for (const run of runs) {
      for (const { enters, diamond, lever, atMm } of run.passings) {
        const at = departs + atMm / speed;
        if (lever?.trailed === true) trailed.push({ id: lever.id, to: lever.position, at });
        if (enters !== null) since.set(enters, at);
        if (diamond !== null) since.set(diamond, at);
      }
      entries.push(...entriesOf(train, run, departs, speed));
      leave(run, here, departs);
      here = run.after;
      departs += run.lengthMm / speed;
    }
    if (Math.abs(departs - move.end) > TOLERANCE)
      wrong(move.start, `${name} ends at ${departs.toFixed(3)} at its speed, not at ${move.end}`);
    before = move.end;
  }
  for (const [what, start] of since) held.push({ train, what, from: start, till: Number.POSITIVE_INFINITY });
  return { held, entries, trailed, last: here, restsFrom: before ?? Number.NEGATIVE_INFINITY, faults };
}

/** The insulated crossing at the back end of a spot under a train. */
function nodeBehind(
  railroad: Railroad,
  train: LyingTrain,
  spot: LyingTrain['trail'][number],
): NodeId | undefined {
  const next = train.trail[train.trail.indexOf(spot) + 1];
  const node = next === undefined ? undefined : railroad.nodes.get(next.toward);
  return node?.kind === 'crossing' && node.insulated ? node.id : undefined;
}

/** The entries of a run; levers count for the block that they lie in, and for the stop itself where no block is entered. */
function entriesOf(train: SituationTrain, run: PossibleRun, departs: Seconds, speed: number): Entry[] {
  const entries: { block: BlockId; atMm: number; levers: Entry['levers'][number][] }[] = [];
  for (const { enters, block, atMm, lever } of run.passings) {
    if (enters !== null || entries.length === 0) entries.push({ block, atMm, levers: [] });
    if (lever?.trailed === false) entries.at(-1)?.levers.push(lever);
  }
  return entries.map(({ block, atMm, levers }) => ({
    train,
    cab: train.cab,
    block,
    at: departs + atMm / speed,
    levers,
  }));
}
