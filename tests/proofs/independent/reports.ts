/** Observations of trains: where they are, what they left, what happened to them. */

import { dispute, type Happening, raiseWrongThrottle } from './alarms.ts';
import { feedOf } from './feed.ts';
import { end } from './grants.ts';
import { enterElsewhere, enterVisits, gapInto, layAt, leave, nextVisit } from './movement.ts';
import {
  type Authority,
  addReason,
  ahead,
  authorityOf,
  headBlock,
  isIn,
  type Line,
  type PlacedTrain,
  type State,
  type World,
} from './state.ts';
import { sure } from './sure.ts';
import { blocksUnder, cutsIn, standRight, trainsIn, viewOf, waysOf } from './views.ts';

/** The blocks inside a train's limits in force: those named and those it stands in, unless it came into them from the limits. */
const inLimits = (state: State, authority: Authority, block: string): boolean =>
  authority.visits.some((visit) => visit.block === block) ||
  (isIn(state, authority.train, block) && !state.disputed[block]);

/** A train that nobody placed but somebody sees: on the track, no cab's. */
const nowhere = (): PlacedTrain => ({
  cab: null,
  trail: [],
  known: false,
  blocks: [],
  stopped: true,
  handOffs: {},
});

export function trainEntered(world: World, state: State, line: Line, happening: Happening): void {
  const { train, block } = line;
  state.trains[train] ??= nowhere();
  happening.reported.push(train);
  const authority = authorityOf(state, train);
  if (authority?.kind === 'limits') {
    if (!inLimits(state, authority, block) && !isIn(state, train, block))
      enterUnauthorised(world, state, train, block, happening);
    return;
  }
  const index = authority ? nextVisit(authority, block) : -1;
  const next = authority !== undefined && index === authority.pos + 1 && index >= 0;
  if (isIn(state, train, block) && !next) return;
  if (
    authority &&
    index >= 0 &&
    authority.visits.slice(authority.pos + 1, index + 1).every((visit) => visit.read)
  )
    enterAuthorised(world, state, authority, index, happening);
  else enterUnauthorised(world, state, train, block, happening);
}

function enterAuthorised(
  world: World,
  state: State,
  authority: Authority,
  index: number,
  happening: Happening,
): void {
  const { train } = authority;
  const entered = authority.visits.slice(authority.pos + 1, index + 1);
  // As it came: a self-lining turnout may be moved by the train itself after it was passed.
  const right = entered.map((visit) => standRight(state, waysOf(visit.steps)));
  enterVisits(world, state, authority, index);
  entered.forEach((visit, nth) => {
    if (feedOf(world, state, visit.block) !== visit.cab || !right[nth])
      addReason(happening.raised, 'entered-unlined', train, visit.block);
  });
  raiseWrongThrottle(
    world,
    state,
    entered.map((visit) => visit.block),
    happening,
  );
}

function enterUnauthorised(
  world: World,
  state: State,
  train: string,
  block: string,
  happening: Happening,
): void {
  const before = structuredClone(state);
  const authority = authorityOf(state, train);
  const [next] = authority ? ahead(authority) : [];
  addReason(happening.raised, 'entered-unauthorised', train, block);
  if (gapInto(world, state, train, block) === null) addReason(happening.raised, 'not-adjacent', train, block);
  if (authority && next?.block === block) enterVisits(world, state, authority, authority.pos + 1);
  else enterElsewhere(world, state, train, block);
  dispute(world, before, state, block);
}

export function trainCleared(world: World, state: State, line: Line, happening: Happening): void {
  const { train, block } = line;
  const now = state.trains[train];
  if (!now) return;
  happening.reported.push(train);
  const authority = authorityOf(state, train);
  const standing = now.blocks.find((one) => one.block === block);
  if (standing === undefined || (authority?.kind === 'limits' && inLimits(state, authority, block))) return;
  if (headBlock(state, train) === block) {
    addReason(happening.raised, 'not-adjacent', train, block);
  } else if (!standing.pickedUp && blocksUnder(world, state, train).includes(block))
    addReason(happening.raised, 'still-under', train, block);
  else leave(world, state, train, block);
}

/** A correction: the train lies back from there, and nowhere else. */
export function trainAt(world: World, state: State, line: Line, happening: Happening): void {
  const { train, edge, toward } = line;
  state.trains[train] ??= nowhere();
  const now = state.trains[train];
  happening.reported.push(train);
  happening.corrected.push(train);
  const authority = authorityOf(state, train);
  const had = now.blocks.map((one) => ({ ...one }));
  const blocks = layAt(world, state, train, { edge, toward });
  if (authority?.kind === 'limits') {
    const all = [
      ...authority.visits.map((visit) => visit.block),
      ...had.map((one) => one.block).filter((block) => !state.disputed[block]),
    ];
    if (!blocks.every((block) => all.includes(block))) end(authority, 'annulled');
  } else if (authority) keepOrAnnul(authority, line);
  const before = structuredClone(state);
  const unauthorised: string[] = [];
  for (const block of blocks) {
    if (had.some((one) => one.block === block)) continue;
    const { train: owner } = viewOf(world, before, block);
    // A block with a train and a cut is the train's.
    const others =
      trainsIn(before, block).some((one) => one.train !== train) ||
      (owner !== train && cutsIn(before, block).length > 0);
    if (before.disputed[block] || others || (owner !== null && owner !== train)) unauthorised.push(block);
  }
  const cabs = correctedCabs(authority, now, blocks);
  now.cab = sure(cabs[0]).cab;
  now.blocks = cabs.map(({ block, cab }) => {
    const old = had.find((one) => one.block === block);
    state.arrivals += 1;
    return { block, cab: old ? old.cab : cab, since: old?.since ?? state.arrivals, pickedUp: false };
  });
  for (const block of unauthorised) {
    addReason(happening.raised, 'entered-unauthorised', train, block);
    dispute(world, before, state, block);
  }
  const own = blocks.filter((block) => !before.disputed[block] && !unauthorised.includes(block));
  raiseWrongThrottle(world, state, own, happening);
}

/** The authority stays where the place ends one of its blocks (or is where it began); else it is annulled. */
function keepOrAnnul(authority: Authority, line: Line): void {
  const ends = authority.visits.map((visit) => sure(visit.steps.at(-1)));
  const at = ends.findIndex((step) => step.edge === line.edge && step.toward === line.toward);
  const { start } = authority;
  if (at < 0 && !(start.edge === line.edge && start.toward === line.toward)) {
    end(authority, 'annulled');
    return;
  }
  if (at >= 0) authority.lead = [];
  authority.pos = at;
  if (at >= 0 && authority.state === 'acknowledged') authority.state = 'running';
}

/**
 * Whose each block under a corrected train is: as its authority has it; else, from the block of an agreed hand-off up to the head, the
 * other cab's; else the cab it had. Agreements for these blocks are carried out with that.
 */
function correctedCabs(
  authority: Authority | undefined,
  train: PlacedTrain,
  blocks: readonly string[],
): { block: string; cab: string | null }[] {
  const passed =
    authority?.kind === 'move' && authority.state !== 'annulled'
      ? authority.visits.slice(0, authority.pos + 1)
      : [];
  const works = authority?.kind === 'limits' && authority.state !== 'annulled';
  const agreedAt = works ? -1 : blocks.findIndex((block) => train.handOffs[block] !== undefined);
  const agreed = train.handOffs[blocks[agreedAt] ?? ''] ?? train.cab;
  const before = train.cab;
  if (!works) for (const block of blocks) delete train.handOffs[block];
  return blocks.map((block, nth) => ({
    block,
    cab: passed.findLast((visit) => visit.block === block)?.cab ?? (nth <= agreedAt ? agreed : before),
  }));
}

/** Stopped, stalled, derailed, rerailed. */
export function happened(world: World, state: State, line: Line, happening: Happening): void {
  const now = state.trains[line.train];
  happening.reported.push(line.train);
  if (now && line.do !== 'rerailed') now.stopped = true;
  if (line.do === 'train-stopped') happening.stopped.push(line.train);
  if (line.do === 'rerailed') state.derailed = state.derailed.filter((one) => one !== line.train);
  if (line.do !== 'derailed') return;
  if (!state.derailed.includes(line.train)) state.derailed.push(line.train);
  addReason(happening.raised, 'off-the-rails', line.train);
  const before = structuredClone(state);
  for (const { block } of now?.blocks ?? []) dispute(world, before, state, block);
}

/** Blocks behind whose far gap lies farther back from the gap just crossed than the train's length with its margin. */
export function clearedBehind(world: World, state: State, train: string, steps: number): string[] {
  const now = sure(state.trains[train]);
  const { length } = sure(state.rolling[train]);
  const enough = length + Math.max(length * 0.05, 100);
  return now.blocks.slice(1).flatMap(({ block }) => {
    const index = now.trail.findIndex(
      (piece, nth) => nth >= steps && world.track.blockOf[piece.edge] === block,
    );
    if (index < 0) return [];
    const back = now.trail
      .slice(steps, index)
      .reduce((sum, piece) => sum + sure(world.track.length[piece.edge]), 0);
    return back > enough ? [block] : [];
  });
}
