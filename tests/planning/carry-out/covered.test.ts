/** A plan beside the orders in force: what of it is given already, whoever gave it; when it is at its end; who is behind its times. */
import { describe, expect, it } from 'vitest';
import { behindPlan } from '../../../shared-model/planning/carry-out/behind-plan.ts';
import { coveredIn, isCarriedOut } from '../../../shared-model/planning/carry-out/covered.ts';
import { atTheBeginning, goneOn, type HowFar } from '../../../shared-model/planning/carry-out/how-far.ts';
import type { SessionState } from '../../../shared-model/session/state.ts';
import { THREE } from '../../support/crew/rehearsed.ts';

const { kept } = THREE;
const first = atTheBeginning(kept);
const T3 = 't3' as never;
const way = kept.ways.get(T3) ?? [];
const place = kept.orders.findIndex(({ order }) => order.train === 't3');

/** A state in which No. 3 has an order along these blocks, its head in the one at `at`. */
const held = (blocks: readonly string[], at = 0) =>
  ({
    authorities: {
      a1: {
        train: 't3',
        kind: 'move',
        state: 'granted',
        at,
        blocks,
        legs: blocks.map((block) => ({ block })),
      },
    },
    trains: {},
  }) as unknown as SessionState;

const far = (entered: number, left: number): HowFar =>
  new Map(first).set(T3, { entered, left, astray: null });

describe('an order of a plan is given', () => {
  it('when an order in force leads as far along the way of its train, however it was given', () => {
    expect(coveredIn(kept, first, held(way)).has(place)).toBe(true);
    expect(coveredIn(kept, far(2, 1), held(way, 1)).has(place)).toBe(true);
  });

  it('not when the order in force ends before, goes another way, or is no more', () => {
    expect(coveredIn(kept, first, held(way.slice(0, -1))).has(place)).toBe(false);
    expect(coveredIn(kept, first, held([way[0] ?? '', 'B99', ...way.slice(2)])).has(place)).toBe(false);
    expect(coveredIn(kept, first, { authorities: {}, trains: {} } as unknown as SessionState).size).toBe(0);
  });

  it('when its train has run it, with nothing in force', () => {
    const none = { authorities: {}, trains: {} } as unknown as SessionState;
    expect(coveredIn(kept, far(way.length, way.length - 1), none).has(place)).toBe(true);
  });
});

describe('the end of a plan', () => {
  it('has come when every train has run its orders, and not before', () => {
    const all = new Map(
      [...first].map(([train, come]) => [train, { ...come, entered: kept.ways.get(train)?.length ?? 0 }]),
    );
    expect(isCarriedOut(kept, all)).toBe(true);
    expect(isCarriedOut(kept, new Map(all).set(T3, { entered: way.length - 1, left: 0, astray: null }))).toBe(
      false,
    );
  });

  it('is not undone by a train that goes on after it, back over blocks of its way', () => {
    const through = far(way.length, way.length - 1);
    const blocks = [way[1] ?? ''];
    const on = { trains: { t3: { placed: true, lost: false, blocks } } } as unknown as SessionState;
    expect(goneOn(kept, through, on).get(T3)).toEqual(through.get(T3));
  });
});

describe('behind the plan', () => {
  const due = kept.orders[place]?.order.enters[0]?.headIn ?? 0;

  it('is a train from the second on at which it was to come into its next block', () => {
    expect(behindPlan(kept, first, due).has(T3)).toBe(false);
    expect(behindPlan(kept, first, due + 45).get(T3)).toBeCloseTo(45);
  });

  it('is nobody who has run his orders', () => {
    expect(behindPlan(kept, far(way.length, way.length - 1), due + 10_000).has(T3)).toBe(false);
  });
});
