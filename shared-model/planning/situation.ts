/** SITUATION: which trains stand where, where they are to end up, and how the knobs stand. The one door from JSON to a task. */
import {
  type BlockId,
  blockId,
  edgeId,
  type NodeId,
  nodeId,
  type SelectorId,
  selectorId,
  type ThrottleId,
  type ToggleId,
  type TrainId,
  throttleId,
  toggleId,
  trainId,
} from '../ids.ts';
import { jsonPath, type Malformed, type Parsed, parseValue } from '../malformed.ts';
import { type TurnoutPosition, turnoutPosition } from '../railroad/document.ts';
import { feedOf } from '../railroad/feed.ts';
import type { Railroad } from '../railroad/railroad.ts';
import { isStop, isThrown, type Spot } from '../railroad/travel.ts';
import { layBack } from '../railroad/under-train.ts';
import type { Millimetres, Seconds } from '../units.ts';
import { z } from '../zod.ts';

/** Scale miles an hour of a train that names no speed of its own. */
export const USUAL_MPH = 30;

export const situationSchema = z.strictObject({
  trains: z.array(
    z.strictObject({
      train: trainId,
      edge: edgeId,
      toward: nodeId,
      cab: throttleId,
      to: blockId.optional(),
      mph: z.number().positive().max(1000).optional(),
      notBefore: z.number().nonnegative().max(1_000_000).optional(),
    }),
  ),
  turnouts: z.record(nodeId, turnoutPosition).optional(),
  selectors: z.record(selectorId, z.union([z.literal('off'), throttleId])).optional(),
  toggles: z.record(toggleId, z.boolean()).optional(),
  reversals: z.boolean().optional(),
});
/** A situation as it is written. */
export type SituationJson = z.input<typeof situationSchema>;
type Written = z.output<typeof situationSchema>;

/** A train of a situation, laid out on the track. */
export interface SituationTrain {
  readonly id: TrainId;
  readonly lengthMm: Millimetres;
  readonly cab: ThrottleId;
  /** Directed edges under it, head first, facing as the train does; the head is at the `toward` end of the first. */
  readonly trail: readonly Spot[];
  /** The blocks under it, head first. */
  readonly blocks: readonly BlockId[];
  /** Its destination; null: parked, it does not move. */
  readonly to: BlockId | null;
  /** Scale miles an hour. */
  readonly mph: number;
  /** Earliest start of its first move, in seconds from the situation. */
  readonly notBefore: Seconds;
}

export interface Situation {
  readonly trains: readonly SituationTrain[];
  readonly turnouts: ReadonlyMap<NodeId, TurnoutPosition>;
  readonly selectors: ReadonlyMap<SelectorId, ThrottleId | 'off'>;
  readonly toggles: ReadonlyMap<ToggleId, boolean>;
  /** Whether trains may change their facing where they stand. */
  readonly reversals: boolean;
}

/** A place in the situation, and what was expected there; raised inside this file alone. */
class Wrong extends Error {
  readonly malformed: Malformed;

  constructor(path: readonly PropertyKey[], says: string) {
    super(says);
    this.malformed = { path: jsonPath(path), says };
  }
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
 * How the knobs stand: as given, else selectors off and toggles off, but those that feed a train at its cab and on. The knobs of a
 * train that moves may not be given otherwise; those of a parked one may be given as off, so that it stands dead.
 */
function knobs(railroad: Railroad, written: Written, trains: readonly SituationTrain[]) {
  const given = {
    selectors: new Map(Object.entries(written.selectors ?? {}) as [SelectorId, ThrottleId | 'off'][]),
    toggles: new Map(Object.entries(written.toggles ?? {}) as [ToggleId, boolean][]),
  };
  const selectors = new Map(
    railroad.document.selectors.map(({ id }) => [id, given.selectors.get(id) ?? 'off']),
  );
  const toggles = new Map(railroad.document.toggles.map(({ id }) => [id, given.toggles.get(id) ?? false]));
  for (const train of trains)
    for (const block of train.blocks) {
      const feed = feedOf(railroad, block);
      // Beyond a toggle that was given as off, nothing feeds a parked train.
      let dead = false;
      for (const toggle of [...(feed?.toggles ?? [])].reverse()) {
        if (given.toggles.get(toggle) === false) {
          if (train.to !== null)
            throw new Wrong(
              ['toggles', toggle],
              `expected true, since ${train.id} stands in ${block} and is to move`,
            );
          dead = true;
        }
        if (!dead) toggles.set(toggle, true);
      }
      if (dead || feed === null || feed.selector === null) continue;
      const position = given.selectors.get(feed.selector) ?? train.cab;
      // The knob of a parked train's own block may be off; one that lies behind its toggle is not under it and may stand anyhow.
      const mayDiffer = train.to === null && (position === 'off' || feed.toggles.length > 0);
      if (position !== train.cab && !mayDiffer)
        throw new Wrong(
          ['selectors', feed.selector],
          `expected "${train.cab}"${train.to === null ? ' or "off"' : ''}, since ${train.id} stands in ${block}, not "${position}"`,
        );
      selectors.set(feed.selector, position);
    }
  return { selectors, toggles };
}

/** Whether nothing feeds a train where it is parked, so that its throttle may run another train. */
function isParkedDead(
  railroad: Railroad,
  situation: Omit<Situation, 'reversals'>,
  train: SituationTrain,
): boolean {
  return (
    train.to === null &&
    train.blocks.every((block) => {
      const feed = feedOf(railroad, block);
      if (feed === null || feed.toggles.some((toggle) => situation.toggles.get(toggle) !== true)) return true;
      return feed.selector !== null && situation.selectors.get(feed.selector) === 'off';
    })
  );
}

function checkCabs(railroad: Railroad, situation: Omit<Situation, 'reversals'>): void {
  situation.trains.forEach((train, index) => {
    const other = situation.trains.slice(0, index).find(({ cab }) => cab === train.cab);
    if (
      other === undefined ||
      isParkedDead(railroad, situation, train) ||
      isParkedDead(railroad, situation, other)
    )
      return;
    throw new Wrong(
      ['trains', index, 'cab'],
      `expected one train a cab (or one of them parked in a block whose selector is off), but ${other.id} has cab ${train.cab} too`,
    );
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
    const situation = { trains, turnouts, ...knobs(railroad, written, trains) };
    checkCabs(railroad, situation);
    return { ok: true, value: { ...situation, reversals: written.reversals ?? false } };
  } catch (error) {
    if (error instanceof Wrong) return { ok: false, malformed: error.malformed };
    throw error;
  }
}
