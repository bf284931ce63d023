/** What granting, reading back, annulling, limits and handing off do to the state, and what stands against them. */

import { phaseCode, supplyOf } from './feed.ts';
import { canWait, type MovePlan, notReady } from './moves.ts';
import { blockReasons, standingReasons, wayReasons, wholeReasons } from './needs.ts';
import {
  type Authority,
  addReason,
  ahead,
  authorityOf,
  isIn,
  type Line,
  type Reason,
  type State,
  type World,
} from './state.ts';
import { sure } from './sure.ts';
import { gapsBetween, passages } from './track.ts';
import { type Lock, locksOn, waysOf } from './views.ts';

const notNow = (about: string): Reason[] => [{ code: 'not-now', about: [about] }];

/** The handles of the cabs that an authority uses are no longer said to be at zero. */
function handlesUp(state: State, cabs: readonly string[]): void {
  state.zero = state.zero.filter((cab) => !cabs.includes(cab));
}

export function grantMove(state: State, line: Line, plan: MovePlan): Authority {
  const head = sure(sure(state.trains[line.train]).trail[0]);
  let authority = plan.lengthens;
  if (authority === undefined) {
    authority = {
      id: `a${state.authorities.length + 1}`,
      train: line.train,
      kind: 'move',
      state: 'granted',
      start: { edge: head.edge, toward: head.toward },
      lead: plan.lead,
      led: [],
      visits: plan.visits,
      pos: -1,
      together: [],
      occupied: [],
    };
    state.authorities.push(authority);
  } else {
    authority.lead = plan.lead;
    authority.visits = [...authority.visits.slice(0, authority.pos + 1), ...plan.visits];
  }
  authority.together = [...new Set([...authority.together, ...(line.together ?? [])])];
  handlesUp(state, plan.cabs);
  state.asks = state.asks.filter((ask) => ask.train !== line.train);
  if (state.alone) readBack(authority);
  return authority;
}

export const isReadBack = (authority: Authority): boolean =>
  authority.state !== 'granted' && authority.visits.every((visit) => visit.read);

export function readBack(authority: Authority): void {
  for (const visit of authority.visits) visit.read = true;
  if (authority.state === 'granted') authority.state = authority.pos >= 0 ? 'running' : 'acknowledged';
}

/** Keeps a refused request as the train's ask, or drops the one it had. */
export function keepAsk(state: State, line: Line, reasons: readonly Reason[]): void {
  if (reasons.some(({ code }) => code === 'not-now')) return;
  if (!canWait(line.train, reasons)) state.asks = state.asks.filter((ask) => ask.train !== line.train);
  else if (!state.asks.some((ask) => ask.train === line.train)) state.asks.push({ train: line.train, line });
  else state.asks = state.asks.map((ask) => (ask.train === line.train ? { ...ask, line } : ask));
}

/** Gives a train back all that it has not entered. */
export function end(authority: Authority, how: 'fulfilled' | 'annulled'): void {
  authority.state = how;
  authority.occupied = [];
}

/** Blocks of a set that a gap joins with another of it. */
const joins = (world: World, a: string, b: string): boolean => gapsBetween(world.track, a, b).length > 0;

function apart(world: World, named: readonly string[], own: readonly string[]): string[] {
  const all = [...new Set([...named, ...own])];
  const reached = new Set(own.slice(0, 1));
  for (let before = -1; before !== reached.size; ) {
    before = reached.size;
    for (const one of all) if ([...reached].some((other) => joins(world, one, other))) reached.add(one);
  }
  return all.filter((block) => !reached.has(block));
}

/** Turnouts and diamonds that have an edge in a block. */
function nodesIn(world: World, block: string): string[] {
  const touched = world.doc.edges.filter((edge) => world.track.blockOf[edge.id] === block);
  return world.doc.nodes
    .filter((node) => node.kind === 'turnout' || node.kind === 'crossing')
    .map((node) => node.id as string)
    .filter((node) => touched.some((edge) => edge.between.includes(node as never)));
}

function limitWays(world: World, state: State, train: string, block: string): Reason[] {
  const reasons: Reason[] = [];
  for (const node of nodesIn(world, block)) {
    const others = locksOn(world, state, node).filter((lock) => lock.train !== train);
    const granted = ({ way, how }: Lock): boolean =>
      how !== 'under' && way.setting !== null && world.track.blockOf[way.from] === block;
    if (others.some(granted)) addReason(reasons, 'turnout-locked', node);
    const ways = world.doc.edges
      .filter((edge) => world.track.blockOf[edge.id] === block && edge.between.includes(node as never))
      .flatMap((edge) => passages(world.track, edge.id, node))
      .filter((way) => way.diamond && way.setting !== 'reverse');
    for (const reason of wayReasons(world, state, train, ways))
      if (reason.code === 'crossing-taken') addReason(reasons, reason.code, ...reason.about);
  }
  return reasons;
}

export function limitsReasons(world: World, state: State, line: Line): Reason[] {
  const { train } = line;
  if (authorityOf(state, train)) return notNow(train);
  const ready = notReady(state, train, false);
  if (ready) return [ready];
  const now = sure(state.trains[train]);
  const named: string[] = [...new Set<string>(line.blocks)];
  const own = now.blocks.map(({ block }) => block);
  const lost = apart(world, named, own);
  if (lost.length > 0) return lost.map((block) => ({ code: 'no-route', about: [train, block] }));
  const cab = sure(now.cab);
  const reasons = standingReasons(world, state, train);
  const put = (more: Reason[]): void => {
    for (const { code, about } of more) addReason(reasons, code, ...about);
  };
  const set = [...new Set([...named, ...own])];
  const place = (node: string): number => world.doc.nodes.findIndex((one) => one.id === node);
  for (const block of named) {
    const gaps = set
      .filter((other) => other !== block)
      .flatMap((other) => gapsBetween(world.track, other, block));
    const gap = gaps.map((way) => way.node).sort((a, b) => place(a) - place(b))[0] ?? block;
    put(
      blockReasons(world, state, { train, block, cab, cabBefore: cab, gap, joining: null, ownTail: false }),
    );
  }
  for (const block of named) put(limitWays(world, state, train, block));
  put(wholeReasons(world, state, { train, together: [], cabs: [cab], blocks: named, tooLongIn: null }));
  return reasons;
}

export function grantLimits(state: State, line: Line): Authority {
  const train = sure(state.trains[line.train]);
  const cab = sure(train.cab);
  const head = train.trail[0] ?? { edge: '', toward: '' };
  const blocks = [...new Set<string>(line.blocks)];
  const authority: Authority = {
    id: `a${state.authorities.length + 1}`,
    train: line.train,
    kind: 'limits',
    state: 'granted',
    start: { edge: head.edge, toward: head.toward },
    lead: [],
    led: [],
    visits: blocks.map((block) => ({ block, steps: [], cab, read: false })),
    pos: -1,
    together: [],
    occupied: [],
  };
  state.authorities.push(authority);
  handlesUp(state, [cab]);
  state.asks = state.asks.filter((ask) => ask.train !== line.train);
  if (state.alone) readBack(authority);
  return authority;
}

/** What stands against a hand-off: the two supplies, and for what is granted or stood on, all that a move asks. */
export function handOffReasons(world: World, state: State, line: Line): Reason[] {
  const { train, block, toCab } = line;
  const now = state.trains[train];
  if (now === undefined || now.cab === null) return notNow(train);
  const authority = authorityOf(state, train);
  if (authority?.kind === 'limits') return notNow(authority.id);
  if (state.persons[toCab] === null) return notNow(toCab);
  const reasons: Reason[] = [];
  const put = (more: Reason[]): void => {
    for (const { code, about } of more) addReason(reasons, code, ...about);
  };
  const stands = isIn(state, train, block);
  const coming = authority ? ahead(authority) : [];
  const from = stands ? 0 : coming.findIndex((visit) => visit.block === block);
  if (from < 0) {
    const code = phaseCode(world, state, now.cab, toCab);
    const head = now.trail[0];
    const way = now.known && head ? passages(world.track, head.edge, head.toward)[0] : undefined;
    const leads = way !== undefined && world.track.blockOf[way.to] === block;
    if (code !== null)
      addReason(reasons, code, leads ? way.node : block, supplyOf(world, now.cab), supplyOf(world, toCab));
    return reasons;
  }
  if (stands)
    for (const standing of now.blocks)
      put(
        blockReasons(world, state, {
          train,
          block: standing.block,
          cab: toCab,
          cabBefore: standing.block === block ? now.cab : toCab,
          gap: standing.block,
          joining: null,
          ownTail: false,
        }),
      );
  const concerned = coming.slice(from);
  concerned.forEach((visit, index) => {
    const before = index > 0 || stands ? toCab : (coming[from - 1]?.cab ?? sure(now.cab));
    put(
      blockReasons(world, state, {
        train,
        block: visit.block,
        cab: toCab,
        cabBefore: before,
        gap: sure(sure(visit.steps[0]).by).node,
        joining: null,
        ownTail: false,
      }),
    );
  });
  put(wayReasons(world, state, train, waysOf(concerned.flatMap((visit) => visit.steps))));
  const blocks = [
    ...(stands ? now.blocks.map((one) => one.block) : []),
    ...concerned.map((one) => one.block),
  ];
  put(
    wholeReasons(world, state, {
      train,
      together: authority?.together ?? [],
      cabs: [toCab],
      blocks,
      tooLongIn: null,
    }),
  );
  return reasons;
}

export function handOff(state: State, line: Line): void {
  const { train, block, toCab } = line;
  const now = sure(state.trains[train]);
  const coming = ahead(authorityOf(state, train) ?? ({ kind: 'limits' } as Authority));
  const stands = isIn(state, train, block);
  const from = stands ? 0 : coming.findIndex((visit) => visit.block === block);
  if (stands) {
    now.cab = toCab;
    for (const standing of now.blocks) standing.cab = toCab;
  } else now.handOffs[block] = toCab;
  if (from < 0) return;
  coming.slice(from).forEach((visit, index) => {
    visit.cab = toCab;
    if (stands || index > 0) delete now.handOffs[visit.block];
  });
}
