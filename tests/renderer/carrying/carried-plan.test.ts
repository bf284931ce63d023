/** A plan that is carried out, at a moment of the evening: which train it holds. */
import { describe, expect, it } from 'vitest';
import { planAt } from '../../../renderer/carrying/carried-plan.ts';
import { atTheBeginning } from '../../../shared-model/planning/carry-out/how-far.ts';
import type { SessionState } from '../../../shared-model/session/state.ts';
import { THREE } from '../../support/crew/rehearsed.ts';

const { kept, railroad } = THREE;
const made = { evening: '1', entry: 1, began: 0, plan: 0, given: [] };
const state = { authorities: {}, trains: {} } as unknown as SessionState;

describe('a train of a plan', () => {
  const [first] = kept.orders.filter(({ order }) => order.train === 't3');
  if (first === undefined) throw new Error('No. 3 has an order');
  const twice = { ...kept, orders: [...kept.orders, first] };
  const now = planAt({ name: 'Plan 1', railroad, made, kept: twice }, atTheBeginning(kept), state);

  it('is held where its next order has not its turn', () => {
    expect(now.held.get('t24' as never)?.turn).toMatchObject({ is: 'held' });
  });

  it('is not held by its own later order while the one before that has its turn', () => {
    expect(now.next.map(({ order }) => order.train)).toEqual(['t3']);
    expect(now.held.has('t3' as never)).toBe(false);
  });
});
