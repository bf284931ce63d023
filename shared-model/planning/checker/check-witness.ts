/** Checks a witness: whether runs in that order, one train at a time, bring every train of the situation to its destination. */
import type { BlockId, NodeId, TrainId } from '../../ids.ts';
import type { Railroad } from '../../railroad/railroad.ts';
import type { Situation, SituationTrain } from '../situation.ts';
import {
  blocksUnder,
  diamondsUnder,
  facingBack,
  type LyingTrain,
  type PossibleRun,
  possibleRuns,
} from './lying-train.ts';

export interface WitnessStep {
  readonly train: TrainId;
  readonly to: BlockId;
}

/** Where everything stands after some steps; a step may leave more than one possibility, as it names the block alone. */
export type Standings = ReadonlyMap<TrainId, LyingTrain>;

export function lyingTrain({ trail, lengthMm }: SituationTrain): LyingTrain {
  return { trail, shortMm: 0, lengthMm };
}

function parentBlocks(railroad: Railroad, block: BlockId): readonly BlockId[] {
  const source = railroad.blocks.get(block)?.source;
  return source !== undefined && 'toggle' in source
    ? [source.from, ...parentBlocks(railroad, source.from)]
    : [];
}

/** Whether a run may be done while all other trains stand where they are. */
function isFree(railroad: Railroad, run: PossibleRun, others: readonly LyingTrain[]): boolean {
  const blocks = new Set(others.flatMap((other) => [...blocksUnder(railroad, other)]));
  const diamonds = new Set<NodeId>(others.flatMap((other) => [...diamondsUnder(railroad, other)]));
  return run.passings.every(({ enters, diamond }) => {
    if (diamond !== null && diamonds.has(diamond)) return false;
    return enters === null || ![enters, ...parentBlocks(railroad, enters)].some((block) => blocks.has(block));
  });
}

/** Every standing that one run of a train may lead to. */
export function afterOneRun(
  railroad: Railroad,
  situation: Situation,
  standings: Standings,
  train: SituationTrain,
): readonly LyingTrain[] {
  const here = standings.get(train.id);
  if (here === undefined || train.to === null) return [];
  const others = [...standings].flatMap(([id, other]) => (id === train.id ? [] : [other]));
  const facings = situation.reversals ? [here, facingBack(railroad, here)] : [here];
  return facings
    .flatMap((facing) => possibleRuns(railroad, facing, train.cab))
    .filter((run) => isFree(railroad, run, others))
    .map((run) => run.after);
}

export function startStandings(situation: Situation): Standings {
  return new Map(situation.trains.map((train) => [train.id, lyingTrain(train)]));
}

const headBlock = (railroad: Railroad, train: LyingTrain | undefined): BlockId | undefined => {
  const head = train?.trail[0];
  return head === undefined ? undefined : railroad.blockOfEdge.get(head.edge);
};

/** Whether every train that has a destination stands with its head at a far end of it. */
export function allArrived(railroad: Railroad, situation: Situation, standings: Standings): boolean {
  return situation.trains.every(({ id, to }) => to === null || headBlock(railroad, standings.get(id)) === to);
}

/** A text that is the same for the same standings. */
export function standingsKey(standings: Standings): string {
  return [...standings.values()]
    .map(({ trail }) => trail.map((s) => `${s.edge}>${s.toward}`).join())
    .join(';');
}

/**
 * Checks a witness against a situation.
 *
 * @returns null when it is good; else what is wrong, with the number of the step (from 1)
 */
export function witnessFault(
  railroad: Railroad,
  situation: Situation,
  witness: readonly WitnessStep[],
): string | null {
  let possible: readonly Standings[] = [startStandings(situation)];
  for (const [index, { train: id, to }] of witness.entries()) {
    const train = situation.trains.find((one) => one.id === id);
    if (train === undefined) return `step ${index + 1}: there is no train ${id}`;
    const next = possible.flatMap((standings) =>
      afterOneRun(railroad, situation, standings, train)
        .filter((after) => headBlock(railroad, after) === to)
        .map((after): Standings => new Map([...standings, [id, after]])),
    );
    if (next.length === 0) return `step ${index + 1}: ${id} cannot run to ${to} now`;
    possible = [...new Map(next.map((standings) => [standingsKey(standings), standings])).values()];
  }
  return possible.some((standings) => allArrived(railroad, situation, standings))
    ? null
    : 'after the last step not every train stands at its destination';
}
