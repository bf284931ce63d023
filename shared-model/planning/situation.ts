/** SITUATION: which trains stand where, where they are to end up, and how the knobs stand. The one door from JSON to a task. */
import type { BlockId, NodeId, SelectorId, ToggleId, TrainId } from '../ids.ts';
import { type Parsed, parseValue } from '../malformed.ts';
import type { TurnoutPosition } from '../railroad/document.ts';
import type { Railroad } from '../railroad/railroad.ts';
import { isStop, isThrown, type Spot } from '../railroad/travel.ts';
import { layBack } from '../railroad/under-train.ts';
import type { Millimetres, Seconds } from '../units.ts';
import { situationSchema, USUAL_MPH, type Written, Wrong } from './situation-json.ts';
import { checkCabs, type FedTrain, type Knobs, knobsOf } from './situation-knobs.ts';

export { type SituationJson, situationSchema, USUAL_MPH } from './situation-json.ts';

/** A train of a situation, laid out on the track. */
export interface SituationTrain extends FedTrain {
  readonly lengthMm: Millimetres;
  /** Directed edges under it, head first, facing as the train does; the head is at the `toward` end of the first. */
  readonly trail: readonly Spot[];
  /** Scale miles an hour. */
  readonly mph: number;
  /** Earliest start of its first move, in seconds from the situation. */
  readonly notBefore: Seconds;
}

export interface Situation extends Knobs {
  readonly trains: readonly SituationTrain[];
  readonly turnouts: ReadonlyMap<NodeId, TurnoutPosition>;
  /** Whether trains may change their facing where they stand. */
  readonly reversals: boolean;
}

/** Ids of the document that the situation names, checked before anything is laid out. */
function checkNames(railroad: Railroad, written: Written): void {
  written.trains.forEach((train, index) => {
    const at = ['trains', index] as const;
    const edge = railroad.edges.get(train.edge);
    if (!railroad.trains.has(train.train))
      throw new Wrong([...at, 'train'], `expected a train of the railroad, not "${train.train}"`);
    if (edge === undefined)
      throw new Wrong([...at, 'edge'], `expected an edge of the railroad, not "${train.edge}"`);
    if (!edge.between.includes(train.toward))
      throw new Wrong([...at, 'toward'], `expected ${edge.between.join(' or ')}, not "${train.toward}"`);
    if (!isStop(railroad, train.toward))
      throw new Wrong(
        [...at, 'toward'],
        `expected the head at a gap or an end of track, not at ${train.toward}`,
      );
    if (!railroad.throttles.has(train.cab))
      throw new Wrong([...at, 'cab'], `expected a throttle of the railroad, not "${train.cab}"`);
    if (train.to !== undefined && !railroad.blocks.has(train.to))
      throw new Wrong([...at, 'to'], `expected a block of the railroad, not "${train.to}"`);
    const first = written.trains.findIndex((other) => other.train === train.train);
    if (first !== index)
      throw new Wrong(
        [...at, 'train'],
        `expected each train once, but ${train.train} is trains[${first}] already`,
      );
  });
  for (const id of Object.keys(written.turnouts ?? {})) {
    const node = railroad.nodes.get(id as NodeId);
    if (node === undefined || !isThrown(node))
      throw new Wrong(['turnouts', id], `expected a turnout of the railroad, not "${id}"`);
  }
  for (const [id, position] of Object.entries(written.selectors ?? {})) {
    const selector = railroad.selectors.get(id as SelectorId);
    if (selector === undefined)
      throw new Wrong(['selectors', id], `expected a selector of the railroad, not "${id}"`);
    if (position !== 'off' && !selector.positions.includes(position))
      throw new Wrong(['selectors', id], `expected "off" or a position of its dial, not "${position}"`);
  }
  for (const id of Object.keys(written.toggles ?? {}))
    if (!railroad.toggles.has(id as ToggleId))
      throw new Wrong(['toggles', id], `expected a toggle of the railroad, not "${id}"`);
}

function layOut(
  railroad: Railroad,
  written: Written['trains'][number],
  index: number,
  turnouts: ReadonlyMap<NodeId, TurnoutPosition>,
): SituationTrain {
  const lengthMm = railroad.trains.get(written.train)?.length ?? 0;
  const head: Spot = { edge: written.edge, toward: written.toward };
  const trail = layBack(railroad, head, lengthMm, (node) => turnouts.get(node) ?? 'normal');
  if (trail === undefined)
    throw new Wrong(
      ['trains', index],
      `expected room for the ${lengthMm} mm of ${written.train} behind ${written.edge}:${written.toward} as the turnouts stand`,
    );
  const blocks = trail
    .map(({ edge }) => railroad.blockOfEdge.get(edge))
    .filter((block) => block !== undefined);
  return {
    id: written.train,
    lengthMm,
    cab: written.cab,
    trail,
    blocks: [...new Set(blocks)],
    to: written.to ?? null,
    mph: written.mph ?? USUAL_MPH,
    notBefore: written.notBefore ?? 0,
  };
}

function checkApart(trains: readonly SituationTrain[]): void {
  const taken = new Map<BlockId, TrainId>();
  trains.forEach((train, index) => {
    for (const block of train.blocks) {
      const other = taken.get(block);
      if (other !== undefined)
        throw new Wrong(
          ['trains', index],
          `expected one train in a block, but ${other} and ${train.id} are both in ${block}`,
        );
      taken.set(block, train.id);
    }
  });
}

/**
 * Parses a situation on a railroad whose references are whole.
 *
 * @param value JSON as it was read
 * @returns the situation with every train laid out; else the first place that is wrong and what was expected there
 */
export function parseSituation(railroad: Railroad, value: unknown): Parsed<Situation> {
  const parsed = parseValue(situationSchema, value);
  if (!parsed.ok) return parsed;
  const written = parsed.value;
  try {
    checkNames(railroad, written);
    const turnouts = new Map(Object.entries(written.turnouts ?? {}) as [NodeId, TurnoutPosition][]);
    const trains = written.trains.map((train, index) => layOut(railroad, train, index, turnouts));
    checkApart(trains);
    const knobs = knobsOf(railroad, written, trains);
    checkCabs(railroad, knobs, trains);
    return { ok: true, value: { trains, turnouts, ...knobs, reversals: written.reversals ?? false } };
  } catch (error) {
    if (error instanceof Wrong) return { ok: false, malformed: error.malformed };
    throw error;
  }
}
