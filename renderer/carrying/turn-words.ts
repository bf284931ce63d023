/** Orders of a plan and what they wait for, in words. */
import type { StayToEnd } from '../../shared-model/planning/carry-out/keep-order.ts';
import type { Turn } from '../../shared-model/planning/carry-out/whose-turn.ts';
import type { PlanOrder } from '../../shared-model/planning/rehearsal/plan-orders.ts';
import type { Railroad } from '../../shared-model/railroad/railroad.ts';
import { blockName } from '../../shared-model/railroad/where-words.ts';
import { spokenDestination } from '../../shared-model/session/say.ts';
import { trainWords } from '../rehearsal/words.ts';

/** "No. 24 to 3". */
export const orderWords = (railroad: Railroad, { train, input }: PlanOrder): string =>
  `${trainWords(railroad, train)} to ${spokenDestination(railroad, input.to)}`;

/** What an order waits for: "No. 3 has left 5 Mill, and No. 7 to Quarry is given". Of a train the last block says it all: it leaves those before it sooner. */
export function waitedWords(railroad: Railroad, turn: Turn): string {
  if (turn.is !== 'held') return '';
  const last = new Map<string, StayToEnd>();
  for (const stay of turn.until)
    if (stay.stay >= (last.get(stay.train)?.stay ?? -1)) last.set(stay.train, stay);
  const left = [...last.values()].map(
    ({ train, block }) => `${trainWords(railroad, train)} has left ${blockName(railroad, block)}`,
  );
  const behind = turn.behind === null ? [] : [`${orderWords(railroad, turn.behind.order)} is given`];
  return [...left, ...behind].join(', and ');
}
