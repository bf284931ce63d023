/** A request for a move: the route, the blocks in turn with the cab of each, and everything that stands against it. */

import { blockReasons, standingReasons, wayReasons, wholeReasons } from './needs.ts';
import { bestRoute, needs, type Target } from './routes.ts';
import {
  type Authority,
  addReason,
  ahead,
  authorityOf,
  type Line,
  type Reason,
  type State,
  type Visit,
  type World,
} from './state.ts';
import { sure } from './sure.ts';
import { type Setting, type Spot, type Stretch, underOf } from './track.ts';
import { under, waysOf } from './views.ts';

export interface MovePlan {
  /** The authority that it lengthens, if any. */
  lengthens: Authority | undefined;
  lead: Stretch[];
  /** All visits from the head on: those of the present authority still ahead, then the new ones. */
  visits: Visit[];
  end: Spot;
  cabs: string[];
}

export interface Answer {
  reasons: Reason[];
  plan: MovePlan | null;
}

/** Why a train can be given no move at all just now, or null. */
export function notReady(state: State, train: string, placeNeeded: boolean): Reason | null {
  const now = state.trains[train];
  const notNow = (about: string): Reason => ({ code: 'not-now', about: [about] });
  if (now === undefined || state.derailed.includes(train) || now.cab === null) return notNow(train);
  if (placeNeeded && !now.known && authorityOf(state, train)?.kind !== 'limits') return notNow(train);
  if (state.persons[now.cab] === null) return notNow(now.cab);
  return null;
}

function targets(world: World, to: string): Target[] {
  if (world.doc.blocks.some((block) => block.id === to)) return [{ block: to }];
  if (world.doc.edges.some((edge) => edge.id === to)) return [{ edge: to, toward: null }];
  return sure(world.doc.places.find((place) => place.id === to)).at;
}

/** Groups steps into visits; those that do not leave the block where they begin come first, apart. */
function intoVisits(
  world: World,
  startBlock: string,
  steps: readonly Stretch[],
): { lead: Stretch[]; visits: Visit[] } {
  const lead: Stretch[] = [];
  const visits: Visit[] = [];
  for (const step of steps) {
    const block = sure(world.track.blockOf[step.edge]);
    const last = visits.at(-1);
    if (last === undefined && block === startBlock) lead.push(step);
    else if (last?.block === block) last.steps.push(step);
    else visits.push({ block, steps: [step], cab: '', read: false });
  }
  return { lead, visits };
}

export function requestMove(world: World, state: State, line: Line): Answer {
  const notNow = notReady(state, line.train, true);
  if (notNow) return { reasons: [notNow], plan: null };
  const authority = authorityOf(state, line.train);
  if (authority?.kind === 'limits')
    return { reasons: [{ code: 'not-now', about: [authority.id] }], plan: null };
  const tries = targets(world, line.to).map((target) => oneMove(world, state, line, target, authority));
  return (
    tries.find((one) => one.reasons.length === 0) ??
    tries[0] ?? { reasons: [{ code: 'no-route', about: [line.train, line.to] }], plan: null }
  );
}

function oneMove(
  world: World,
  state: State,
  line: Line,
  target: Target,
  authority: Authority | undefined,
): Answer {
  const plan = planOf(world, state, line, target, authority);
  if (plan === null) {
    const block = 'block' in target ? target.block : sure(world.track.blockOf[target.edge]);
    return { reasons: [{ code: 'no-route', about: [line.train, block] }], plan: null };
  }
  return { reasons: moveReasons(world, state, line, plan), plan };
}

function planOf(
  world: World,
  state: State,
  line: Line,
  target: Target,
  authority: Authority | undefined,
): MovePlan | null {
  const train = sure(state.trains[line.train]);
  const head: Spot = sure(train.trail[0]);
  const coming = authority ? ahead(authority) : [];
  const leadAhead = authority?.lead ?? [];
  const before = [...leadAhead, ...coming.flatMap((visit) => visit.steps)];
  const start: Spot = before.at(-1) ?? authority?.visits.at(-1)?.steps.at(-1) ?? head;
  const settings: Record<string, Setting> = {};
  for (const way of waysOf(before)) {
    const setting = needs(way);
    if (setting !== null) settings[way.node] = setting;
  }
  const route = bestRoute(world.track, start, target, line.via ?? [], settings);
  if (route === null) return null;
  const { lead, visits: added } = intoVisits(world, sure(world.track.blockOf[start.edge]), route);
  const visits = coming.map((visit) => ({ ...visit, steps: [...visit.steps] }));
  const allLead = [...leadAhead];
  const last = visits.at(-1);
  if (last) last.steps.push(...lead);
  else allLead.push(...lead);
  let cab = last?.cab ?? sure(train.cab);
  for (const visit of added) {
    cab = train.handOffs[visit.block] ?? cab;
    visits.push({ ...visit, cab });
  }
  const end = sure(route.at(-1));
  const cabs = [...new Set([sure(train.cab), ...visits.map((visit) => visit.cab)])];
  return { lengthens: authority, lead: allLead, visits, end: { edge: end.edge, toward: end.toward }, cabs };
}

/** The body of a train, head first, when it has run some steps. */
const bodyAfter = (world: World, state: State, train: string, steps: readonly Stretch[]): Stretch[] =>
  underOf(
    world.track,
    [...[...steps].reverse(), ...under(world, state, train)],
    sure(state.rolling[train]).length,
  );

function moveReasons(world: World, state: State, line: Line, plan: MovePlan): Reason[] {
  const train: string = line.train;
  const reasons: Reason[] = [];
  const put = (more: Reason[]): void => {
    for (const { code, about } of more) addReason(reasons, code, ...about);
  };
  put(standingReasons(world, state, train));
  let steps = [...plan.lead];
  let cabBefore = sure(sure(state.trains[train]).cab);
  plan.visits.forEach((visit, index) => {
    const body = bodyAfter(world, state, train, steps);
    put(
      blockReasons(world, state, {
        train,
        block: visit.block,
        cab: visit.cab,
        cabBefore,
        gap: sure(sure(visit.steps[0]).by).node,
        joining: index === plan.visits.length - 1 ? (line.joining ?? null) : null,
        ownTail: body.some((piece) => world.track.blockOf[piece.edge] === visit.block),
      }),
    );
    steps = [...steps, ...visit.steps];
    cabBefore = visit.cab;
  });
  put(wayReasons(world, state, train, waysOf(steps)));
  const goal = sure(world.track.blockOf[plan.end.edge]);
  const body = bodyAfter(world, state, train, steps);
  const tooLong = !line.overhang && body.some((piece) => world.track.blockOf[piece.edge] !== goal);
  put(
    wholeReasons(world, state, {
      train,
      together: line.together ?? [],
      cabs: plan.cabs,
      blocks: plan.visits.map((visit) => visit.block),
      tooLongIn: tooLong ? goal : null,
    }),
  );
  return reasons;
}

const WAITABLE = [
  'block-occupied',
  'block-owned',
  'turnout-locked',
  'crossing-taken',
  'second-train-live',
  'section-live',
];

/** Whether a refusal can pass by itself, so that the request waits; the train's own tail does not make room for it. */
export const canWait = (train: string, reasons: readonly Reason[]): boolean =>
  reasons.every(
    ({ code, about }) => WAITABLE.includes(code) && !(code === 'block-occupied' && about[1] === train),
  );
