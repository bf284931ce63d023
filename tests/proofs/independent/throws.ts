/** The throws that are still needed for an authority or a change of cab, and the guard beyond its limit. */

import { feedOf, parentsOf, rootOf, rootSelector, sourceOf, toggleOf } from './feed.ts';
import { throwReasons } from './knobs.ts';
import { type Authority, ahead, type State, type World } from './state.ts';
import { sure } from './sure.ts';
import { type Passage, passages } from './track.ts';
import { viewOf, waysOf } from './views.ts';

export interface ThrowNeeded {
  kind: 'selector' | 'toggle' | 'turnout';
  id: string;
  to: string | boolean;
  block: string;
  waitsFor: string[];
}

type Bare = Omit<ThrowNeeded, 'waitsFor'>;

/** What is not right for a block: the selector at its root, toggles from the root outwards, turnouts in order. */
export function wrongIn(
  world: World,
  state: State,
  block: string,
  cab: string | null,
  ways: readonly Passage[],
): Bare[] {
  const found: Bare[] = [];
  const selector = rootSelector(world, block);
  if (cab !== null && selector !== null && state.selectors[selector] !== cab)
    found.push({ kind: 'selector', id: selector, to: cab, block: rootOf(world, block) });
  for (const section of [block, ...parentsOf(world, block)].reverse()) {
    const toggle = toggleOf(world, section);
    if (cab !== null && toggle !== null && !state.toggles[toggle])
      found.push({ kind: 'toggle', id: toggle, to: true, block: section });
  }
  return [...found, ...wrongWays(world, state, ways)];
}

/** The block of a turnout; a crossing with slips may lie in two: that of the first of its edges in the file. */
const blockOfNode = (world: World, { node }: Passage): string =>
  sure(world.track.blockOf[sure(world.doc.edges.find((edge) => edge.between.includes(node as never))).id]);

function wrongWays(world: World, state: State, ways: readonly Passage[]): Bare[] {
  const found: Bare[] = [];
  for (const way of ways)
    if (way.setting !== null && !way.trails && state.turnouts[way.node] !== way.setting)
      found.push({ kind: 'turnout', id: way.node, to: way.setting, block: blockOfNode(world, way) });
  return found;
}

function first(bares: readonly Bare[]): Bare[] {
  return bares.filter((one, index) => bares.findIndex((other) => other.id === one.id) === index);
}

const refusedBy = (world: World, state: State, one: Bare): string[] =>
  throwReasons(world, state, one.kind, one.id, one.to)[0]?.about ?? [];

/** All throws that an authority in force still needs, in the order of the train's arrival. */
export function throwsFor(world: World, state: State, authority: Authority): ThrowNeeded[] {
  const train = sure(state.trains[authority.train]);
  const passed = authority.kind === 'limits' ? [] : authority.visits.slice(0, authority.pos + 1);
  const standing = first(
    [...train.blocks].reverse().flatMap(({ block, cab }) => {
      const steps = passed.filter((visit) => visit.block === block).flatMap((visit) => visit.steps);
      return wrongIn(world, state, block, cab, waysOf(steps));
    }),
  );
  const lead = wrongWays(world, state, waysOf(authority.lead));
  const visits = authority.kind === 'limits' ? authority.visits : ahead(authority);
  const perVisit = visits.map((visit) => wrongIn(world, state, visit.block, visit.cab, waysOf(visit.steps)));
  const own = first([...standing, ...lead]);
  const isNew = (one: Bare): boolean => !own.some((other) => other.id === one.id);
  const firstAhead = authority.kind === 'limits' ? [] : first(perVisit[0] ?? []).map(({ id }) => id);
  /** The throws of the first block ahead, but of two that are both also its own block's only the later waits for the earlier. */
  const waitsAhead = (nth: number): string[] => {
    const { id } = sure(own[nth]);
    const later = own.slice(nth + 1).map((one) => one.id);
    return firstAhead.filter((one) => one !== id && !(firstAhead.includes(id) && later.includes(one)));
  };
  const rest = first(perVisit.flat()).filter(isNew);
  const union = (ids: string[]): string[] => [...new Set(ids)];
  return [
    ...own.map((one, nth) => ({
      ...one,
      waitsFor: union([...refusedBy(world, state, one), ...(one.kind === 'turnout' ? [] : waitsAhead(nth))]),
    })),
    ...rest.map((one) => ({ ...one, waitsFor: union(refusedBy(world, state, one)) })),
  ];
}

export interface Guard {
  kind: 'selector';
  id: string;
  to: 'off';
  block: string;
}

/** The first block beyond the limit goes to off if it is open, has a selector, and is live. */
export function guardsFor(world: World, state: State, authority: Authority): Guard[] {
  const end = authority.visits.at(-1)?.steps.at(-1) ?? authority.lead.at(-1);
  if (end === undefined || world.track.kind[end.toward] !== 'gap') return [];
  const beyond = passages(world.track, end.edge, end.toward)[0];
  if (beyond === undefined) return [];
  const block = sure(world.track.blockOf[beyond.to]);
  const source = sourceOf(world, block);
  if (!('selector' in source) || viewOf(world, state, block).state !== 'open') return [];
  if (feedOf(world, state, block) === null) return [];
  return [{ kind: 'selector', id: source.selector, to: 'off', block }];
}

/** A change of cab: each root that feeds the train through toggles that are on goes to off, then each to the new cab. */
export function changeCabThrows(world: World, state: State, train: string, cab: string): ThrowNeeded[] {
  const roots = first(
    [...sure(state.trains[train]).blocks].reverse().flatMap(({ block }): Bare[] => {
      const selector = rootSelector(world, block);
      const chain = [block, ...parentsOf(world, block)].map((one) => toggleOf(world, one));
      if (selector === null || chain.some((toggle) => toggle !== null && !state.toggles[toggle])) return [];
      return [{ kind: 'selector', id: selector, to: 'off', block: rootOf(world, block) }];
    }),
  );
  const all = [
    ...roots.filter(({ id }) => state.selectors[id] !== 'off'),
    ...roots.map((root) => ({ ...root, to: cab })),
  ];
  return all.map((one, index) => ({
    ...one,
    waitsFor: one.to === 'off' ? [] : [...new Set(all.slice(0, index).map(({ id }) => id))],
  }));
}
