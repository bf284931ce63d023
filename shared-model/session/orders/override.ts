/** Override: a refused order carried out all the same, with the reason in the log; only where every reason may be passed over. */

import type { BlockId } from '../../ids.ts';
import type { RefusalCode } from '../../refusal.ts';
import { blocksOfSelector } from '../facts/feed.ts';
import type { InputOf, PlainOrder } from '../input.ts';
import { setSelector, withLiveSections, wrongThrottles } from '../reports/knob-reports.ts';
import { done, type Ruling } from '../ruling.ts';
import type { World } from '../world.ts';
import { caseOf, grant } from './move-orders.ts';
import { settledOpen } from './settle.ts';
import { placeTrain } from './train-orders.ts';

const PASSABLE: Partial<Record<PlainOrder['do'], readonly RefusalCode[]>> = {
  'request-move': ['block-disputed', 'train-too-long', 'overload', 'gridlock-ahead'],
  'place-train': ['block-disputed', 'train-too-long', 'overload', 'gridlock-ahead'],
  'turn-selector': ['block-owned', 'sweeps-live-position'],
};

function carriedOut(world: World, order: PlainOrder): Ruling | null {
  if (order.do === 'place-train') return placeTrain(world, order, true);
  if (order.do === 'request-move') {
    const moving = caseOf(world, order);
    return moving === null ? null : grant(world, moving, order.to);
  }
  if (order.do === 'turn-selector' && order.position !== null) {
    const turned = setSelector(world, order.selector, order.position);
    const blocks = withLiveSections(turned, blocksOfSelector(world.railroad, order.selector));
    return done(turned, { raised: wrongThrottles(turned, blocks) });
  }
  return null;
}

/** Judges the order inside; disputed blocks are settled as open first, and what then remains has to be passable. */
export function override(
  world: World,
  { order }: InputOf<'override'>,
  judge: (world: World, order: PlainOrder) => Ruling,
): Ruling {
  const plain = judge(world, order);
  if (plain.kind === 'done') return plain;
  const passable = PASSABLE[order.do] ?? [];
  const disputes = passable.includes('block-disputed')
    ? plain.reasons.filter(({ code }) => code === 'block-disputed').map(({ about }) => about[0] as BlockId)
    : [];
  const settled = disputes.reduce(settledOpen, world);
  const again = disputes.length === 0 ? plain : judge(settled, order);
  if (again.kind === 'done') return again;
  if (!again.reasons.every(({ code }) => passable.includes(code))) return { ...again, world };
  return carriedOut(settled, order) ?? { ...again, world };
}
