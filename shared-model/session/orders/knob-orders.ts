/** Orders at the knobs: selectors, turnouts, toggles, and a whole setting; each with the reasons against it. */
import type { BlockId, NodeId, SelectorId, ThrottleId, ToggleId } from '../../ids.ts';
import type { TurnoutPosition } from '../../railroad/document.ts';
import type { Refusal } from '../../refusal.ts';
import { blocksOfSelector, feedNow, sectionsOfToggle } from '../facts/feed.ts';
import { locksOn } from '../facts/locks.ts';
import { phaseFact, supplyOf } from '../facts/phase.ts';
import { cabUnder, gapsAcross, placedTrains, trainsIn } from '../facts/standing.ts';
import type { InputOf } from '../input.ts';
import { setSelector, setToggle, setTurnout, withLiveSections } from '../reports/knob-reports.ts';
import { inTableOrder, isTagged } from '../rules/block-reasons.ts';
import { onlyOnce } from '../rules/move-reasons.ts';
import { refusal } from '../rules/sentences.ts';
import { sweptCab } from '../rules/sweep.ts';
import { done, type Ruling } from '../ruling.ts';
import type { World } from '../world.ts';

/** Blocks of another cab that would come to be fed by this throttle: owned ones first, then occupied ones. */
function ownersAgainst(world: World, blocks: readonly BlockId[], throttle: ThrottleId): readonly Refusal[] {
  const reasons = blocks.flatMap((block): Refusal[] => {
    const now = world.state.blocks[block];
    if (now === undefined) return [];
    const here = trainsIn(world, block);
    if (now.state === 'disputed' && now.cab === null)
      return here
        .filter((train) => world.state.trains[train]?.cab !== throttle)
        .map((train) => refusal(world, 'block-occupied', [block, train]));
    if (now.cab === null || now.cab === throttle || now.train === null) return [];
    const occupied =
      now.state === 'occupied' || (now.state === 'disputed' && here.some((train) => train === now.train));
    return occupied
      ? [refusal(world, 'block-occupied', [block, now.train])]
      : [refusal(world, 'block-owned', [block, now.train, now.cab])];
  });
  return [
    ...reasons.filter(({ code }) => code === 'block-owned'),
    ...reasons.filter(({ code }) => code !== 'block-owned'),
  ];
}

/** Gaps of these blocks that a train stands across and whose sides would come to be on two throttles. */
function gapsAgainst(before: World, after: World, blocks: readonly BlockId[]): readonly Refusal[] {
  const order = (gap: NodeId): number => after.railroad.document.nodes.findIndex((node) => node.id === gap);
  const across = placedTrains(after).flatMap(([id, train]) =>
    gapsAcross(after.railroad, train)
      .filter(({ ahead, behind }) => blocks.includes(ahead) || blocks.includes(behind))
      .map((gap) => ({ ...gap, id, cab: train.cab })),
  );
  const reasons = [...across]
    .sort((a, b) => order(a.gap) - order(b.gap))
    .flatMap(({ gap, ahead, behind, id, cab }): Refusal[] => {
      const feeds = [feedNow(after, ahead), feedNow(after, behind)] as const;
      const [a, b] = feeds;
      if (a === null || b === null || a === b) return [];
      const fact = phaseFact(after, a, b);
      if (fact !== 'in-phase') {
        const supplies = [supplyOf(after, a), supplyOf(after, b)];
        const own = cab === null ? null : supplyOf(after, cab);
        return [refusal(before, fact, [gap, ...(supplies[1] === own ? [...supplies].reverse() : supplies)])];
      }
      const agreed = [ahead, behind].every((block) => cabUnder(before, id, block) === feedNow(after, block));
      return agreed ? [] : [refusal(before, 'bridged', [gap])];
    });
  return onlyOnce(inTableOrder(reasons));
}

function tagged(world: World, things: readonly string[]): readonly Refusal[] {
  return [...new Set(things)]
    .filter((thing) => isTagged(world, thing))
    .map((thing) => refusal(world, 'out-of-service', [thing]));
}

/** Reasons against feeding these blocks from a throttle by a knob: owners, tags, a sweep, gaps. */
function feedAgainst(
  before: World,
  after: World,
  blocks: readonly BlockId[],
  throttle: ThrottleId,
  things: readonly string[],
  sweep: readonly Refusal[],
): readonly Refusal[] {
  return [
    ...ownersAgainst(before, blocks, throttle),
    ...tagged(before, things),
    ...sweep,
    ...gapsAgainst(before, after, blocks),
  ];
}

const notOnDial = (world: World, id: SelectorId, position: string): Refusal =>
  refusal(world, 'cab-not-wired', [...blocksOfSelector(world.railroad, id).slice(0, 1), position]);

/** Reasons against turning a selector; "off", and where it already stands, have none. */
export function selectorAgainst(
  world: World,
  id: SelectorId,
  position: ThrottleId | 'off',
): readonly Refusal[] {
  const own = blocksOfSelector(world.railroad, id);
  if (world.state.selectors[id]?.position === position) return [];
  if (world.railroad.selectors.get(id)?.positions.includes(position) !== true)
    return [notOnDial(world, id, position)];
  if (position === 'off') return [];
  const blocks = withLiveSections(world, own);
  const swept = sweptCab(world, id, position, own);
  const sweep = swept === null ? [] : [refusal(world, 'sweeps-live-position', [id, swept])];
  return feedAgainst(world, setSelector(world, id, position), blocks, position, [id], sweep);
}

/** Reasons against throwing a turnout: locked (but to what the lock wants, while the head is not in its block yet), or tagged. */
export function turnoutAgainst(world: World, id: NodeId, position: TurnoutPosition): readonly Refusal[] {
  if (world.state.turnouts[id]?.position === position) return [];
  const locks = locksOn(world, id);
  const asWanted = locks.every((lock) => lock.ahead && lock.wants === position);
  return [...(asWanted ? [] : [refusal(world, 'turnout-locked', [id])]), ...tagged(world, [id])];
}

/** Reasons against a toggle: off has none; on is as turning a selector to the throttle that its parent stands at. */
export function toggleAgainst(world: World, id: ToggleId, on: boolean): readonly Refusal[] {
  if (!on || world.state.toggles[id]?.on === true) return [];
  const own = sectionsOfToggle(world.railroad, id);
  const after = setToggle(world, id, true);
  const fed = own.map((block) => feedNow(after, block)).find((feed) => feed !== null);
  if (fed === undefined || fed === null) return tagged(world, [id]);
  return feedAgainst(world, after, withLiveSections(after, own), fed, [id], []);
}

const ruled = (world: World, reasons: readonly Refusal[], after: World): Ruling =>
  reasons.length > 0 ? { kind: 'refused', reasons, world } : done(after);

export function turnSelector(world: World, { selector, position }: InputOf<'turn-selector'>): Ruling {
  if (position === null) return { kind: 'refused', reasons: [notOnDial(world, selector, 'null')], world };
  return ruled(world, selectorAgainst(world, selector, position), setSelector(world, selector, position));
}
export function throwTurnout(world: World, { turnout, position }: InputOf<'throw-turnout'>): Ruling {
  return ruled(world, turnoutAgainst(world, turnout, position), setTurnout(world, turnout, position));
}
export function throwToggle(world: World, { toggle, on }: InputOf<'set-toggle'>): Ruling {
  return ruled(world, toggleAgainst(world, toggle, on), setToggle(world, toggle, on));
}

/** A saved setting, in the file's order, each judged on the state after those before; whole or not at all. */
export function applySetting(world: World, { setting: id }: InputOf<'apply-setting'>): Ruling {
  const setting = world.railroad.document.settings.find((other) => other.id === id);
  if (setting === undefined) throw new Error(`no setting ${id}`);
  let next = world;
  const reasons: Refusal[] = [];
  const take = (against: readonly Refusal[], after: World): void => {
    reasons.push(...against);
    if (against.length === 0) next = after;
  };
  for (const [selector, position] of Object.entries(setting.selectors) as [SelectorId, ThrottleId | 'off'][])
    take(selectorAgainst(next, selector, position), setSelector(next, selector, position));
  for (const [turnout, position] of Object.entries(setting.turnouts) as [NodeId, TurnoutPosition][])
    take(turnoutAgainst(next, turnout, position), setTurnout(next, turnout, position));
  for (const [toggle, on] of Object.entries(setting.toggles) as [ToggleId, boolean][])
    take(toggleAgainst(next, toggle, on), setToggle(next, toggle, on));
  return ruled(world, onlyOnce(reasons), next);
}
