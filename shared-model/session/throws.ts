/** The hand movements that an authority still needs, in the order of the train's arrival, and the guards beyond its limit. */
import type { BlockId, NodeId, ThrottleId, TrainId } from '../ids.ts';
import type { TurnoutPosition } from '../railroad/document.ts';
import { onward } from '../railroad/travel.ts';
import { authorityOf, legsAhead } from './facts/authorities.ts';
import { ownToggle, parentsOf, rootOf, rootSelector } from './facts/feed.ts';
import { wrongTurnouts } from './facts/lined.ts';
import { blockOfNode } from './facts/locks.ts';
import { cabUnder } from './facts/standing.ts';
import { selectorAgainst, toggleAgainst, turnoutAgainst } from './orders/knob-orders.ts';
import { waysRound } from './rules/sweep.ts';
import type { AuthorityNow, Leg, Throw } from './state.ts';
import { unique, type World } from './world.ts';

/** Why a throw would be refused now: the things of the first reason. */
function waits(world: World, thrown: Pick<Throw, 'kind' | 'id' | 'to'>): readonly string[] {
  const { kind, id, to } = thrown;
  const reasons =
    kind === 'selector'
      ? selectorAgainst(world, id as Parameters<typeof selectorAgainst>[1], to as ThrottleId | 'off')
      : kind === 'turnout'
        ? turnoutAgainst(world, id as NodeId, to as TurnoutPosition)
        : toggleAgainst(world, id as Parameters<typeof toggleAgainst>[1], to === true);
  return reasons[0]?.about ?? [];
}

/** What to mind when a dial is turned in a block with a train: the handle, the way round, and whose handles it passes. */
function adviceFor(world: World, selector: Throw['id'], to: ThrottleId, block: BlockId): string | undefined {
  const dial = world.railroad.document.selectors.find((other) => other.id === selector);
  const now = world.state.selectors[selector as keyof typeof world.state.selectors]?.position ?? 'off';
  if (dial === undefined || world.state.blocks[block]?.state !== 'occupied') return undefined;
  const ways = waysRound(dial.positions, now, to, dial.stops);
  const passes = (over: (typeof ways)[number]['over']): readonly string[] =>
    unique(
      over.filter(
        (cab): cab is ThrottleId => cab !== null && cab !== 'off' && world.state.cabs[cab]?.person != null,
      ),
    );
  const best = [...ways].sort((a, b) => passes(a.over).length - passes(b.over).length)[0];
  if (best === undefined) return 'Handle at zero, then turn.';
  const names = passes(best.over).map((cab) => world.railroad.throttles.get(cab as ThrottleId)?.name ?? cab);
  const handles = names.length === 0 ? '' : ` It passes ${names.join(' and ')}: their handles to zero first.`;
  return `Handle at zero, then turn ${best.direction} the dial.${handles}`;
}

/** Throws of the knobs of one block: the selector at the root, then the toggles from the root outwards. */
function knobThrows(world: World, block: BlockId, cab: ThrottleId): readonly Throw[] {
  const { railroad, state } = world;
  const selector = rootSelector(railroad, block);
  const root = rootOf(railroad, block);
  const turn: Throw[] =
    selector === null || state.selectors[selector]?.position === cab
      ? []
      : [
          withAdvice(
            { kind: 'selector', id: selector, to: cab, block: root, waitsFor: [] },
            adviceFor(world, selector, cab, root),
          ),
        ];
  const sections = [block, ...parentsOf(railroad, block)].reverse();
  const toggles = sections.flatMap((section): Throw[] => {
    const toggle = ownToggle(railroad, section);
    return toggle === null || state.toggles[toggle]?.on === true
      ? []
      : [{ kind: 'toggle', id: toggle, to: true, block: section, waitsFor: [] }];
  });
  return [...turn, ...toggles];
}

const withAdvice = (thrown: Throw, advice: string | undefined): Throw =>
  advice === undefined ? thrown : { ...thrown, advice };

function turnoutThrows(world: World, leg: Leg): readonly Throw[] {
  return wrongTurnouts(world, leg).map(({ id, position }) => ({
    kind: 'turnout',
    id,
    to: position,
    block: blockOfNode(world.railroad, id) ?? leg.block,
    waitsFor: [],
  }));
}

/** The throws for one leg ahead. */
export function legThrows(world: World, leg: Leg): readonly Throw[] {
  return [...knobThrows(world, leg.block, leg.cab), ...turnoutThrows(world, leg)];
}

function onceEach(throws: readonly Throw[]): readonly Throw[] {
  return throws.filter((thrown, index) => throws.findIndex((other) => other.id === thrown.id) === index);
}

/**
 * Every throw that an authority still needs: first for the blocks that the train is in, tail to head, then for those ahead. What is
 * not safe yet says what it waits for; the knobs under the train wait for the throws of the first block ahead, so that no train
 * starts into an unset turnout.
 */
export function throwsNeeded(world: World, authority: AuthorityNow): readonly Throw[] {
  const { train: id } = authority;
  const blocks = [...(world.state.trains[id]?.blocks ?? [])].reverse();
  const passed = authority.legs.slice(1, authority.at + 1);
  const under = blocks.flatMap((block) => {
    const cab = cabUnder(world, id, block);
    const legs = passed.filter((leg) => leg.block === block);
    return [
      ...(cab === null ? [] : knobThrows(world, block, cab)),
      ...legs.flatMap((leg) => turnoutThrows(world, leg)),
    ];
  });
  const here = authority.at === 0 ? authority.legs[0] : undefined;
  const ahead = legsAhead(authority);
  const first: readonly string[] =
    ahead[0] === undefined ? [] : legThrows(world, ahead[0]).map((thrown) => thrown.id);
  const inLimits =
    authority.kind === 'limits'
      ? authority.blocks
          .filter((block) => !blocks.includes(block))
          .flatMap((block) => {
            const cab = world.state.trains[id]?.cab;
            return cab == null ? [] : knobThrows(world, block, cab);
          })
      : [];
  const all = [
    ...under,
    ...(here === undefined ? [] : turnoutThrows(world, here)),
    ...ahead.flatMap((leg) => legThrows(world, leg)),
    ...inLimits,
  ];
  const own: readonly string[] = onceEach(under)
    .filter(({ kind }) => kind !== 'turnout')
    .map((thrown) => thrown.id);
  // Two throws must not wait for each other: of two that both are of the train's block and of the first ahead, the later waits.
  const holdsBack = (thrown: Throw, other: string): boolean =>
    other !== thrown.id &&
    !(first.includes(thrown.id) && own.includes(other) && own.indexOf(other) > own.indexOf(thrown.id));
  return onceEach(all).map((thrown) => ({
    ...thrown,
    waitsFor: unique([
      ...waits(world, thrown),
      ...(own.includes(thrown.id) ? first.filter((other) => holdsBack(thrown, other)) : []),
    ]),
  }));
}

/** The first block beyond an authority's limit goes to off, if it is open, has a selector of its own and stands at a throttle: only a dead block stops an overrun. */
export function guardsBeyond(world: World, authority: AuthorityNow): readonly Throw[] {
  const { railroad, state } = world;
  const end = [...authority.legs]
    .reverse()
    .find((leg) => leg.spots.length > 0)
    ?.spots.at(-1);
  if (end === undefined || railroad.nodes.get(end.toward)?.kind !== 'gap') return [];
  const beyond = onward(railroad, end)[0];
  const block = beyond === undefined ? undefined : railroad.blockOfEdge.get(beyond.edge);
  const source = block === undefined ? undefined : railroad.blocks.get(block)?.source;
  if (block === undefined || source === undefined || !('selector' in source)) return [];
  if (state.blocks[block]?.state !== 'open' || state.selectors[source.selector]?.position === 'off')
    return [];
  return [{ kind: 'selector', id: source.selector, to: 'off', block, waitsFor: [] }];
}

/** Whether the words of a grant end with "stop well short: live gap ahead": the block beyond is live and cannot be turned off as a guard. */
export function liveGapAhead(world: World, authority: AuthorityNow): boolean {
  const { railroad, state } = world;
  const end = [...authority.legs]
    .reverse()
    .find((leg) => leg.spots.length > 0)
    ?.spots.at(-1);
  if (end === undefined || railroad.nodes.get(end.toward)?.kind !== 'gap') return false;
  const beyond = onward(railroad, end)[0];
  const block = beyond === undefined ? undefined : railroad.blockOfEdge.get(beyond.edge);
  if (block === undefined || guardsBeyond(world, authority).length > 0) return false;
  const selector = rootSelector(railroad, block);
  return selector === null || state.selectors[selector]?.position !== 'off';
}

/** The throws that a change of cab needs: every knob under the train to off, then each to the new cab. */
export function changeCabThrows(world: World, train: TrainId, cab: ThrottleId): readonly Throw[] {
  const { railroad, state } = world;
  const lit = (block: BlockId): boolean =>
    [block, ...parentsOf(railroad, block)].every((at) => {
      const toggle = ownToggle(railroad, at);
      return toggle === null || state.toggles[toggle]?.on === true;
    });
  const blocks = [...(state.trains[train]?.blocks ?? [])].reverse().filter(lit);
  const roots = unique(blocks.map((block) => rootOf(railroad, block))).flatMap((root) => {
    const id = rootSelector(railroad, root);
    return id === null ? [] : [{ id, root }];
  });
  // A selector that feeds two of its blocks is turned once.
  const knobs = roots.filter(({ id }, index) => roots.findIndex((other) => other.id === id) === index);
  const off = knobs.filter(({ id }) => state.selectors[id]?.position !== 'off');
  const turns: Throw[] = [
    ...off.map(({ id, root }): Throw => ({ kind: 'selector', id, to: 'off', block: root, waitsFor: [] })),
    ...knobs.map(({ id, root }): Throw => ({ kind: 'selector', id, to: cab, block: root, waitsFor: [] })),
  ];
  return turns.map((thrown, index) => ({
    ...thrown,
    waitsFor: thrown.to === 'off' ? [] : unique(turns.slice(0, index).map((earlier) => earlier.id)),
  }));
}

/** The throws that the authority of a train still needs; none without one. */
export function throwsFor(world: World, train: TrainId): readonly Throw[] {
  const held = authorityOf(world.state, train);
  return held === null ? [] : throwsNeeded(world, held.authority);
}
