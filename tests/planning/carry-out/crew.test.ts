/**
 * A plan carried out as an order of trains by a simulated crew: words of 6 s and 4 s lost at each start, as on the screen, and every start
 * from a stand late by a time that is drawn. How late model engineers are is common practice, no source: 0 to 3 or 5 s each, evenly; then 0 to
 * 60 s. The hands follow the plan's throws; a train is let stand rather than run up to a stop behind one that is known to be late.
 */
import { describe, expect, it } from 'vitest';
import { carried, expectGood, lateUpTo, MEETS, THREE } from '../../support/crew/rehearsed.ts';

describe('a plan carried out by a crew', () => {
  it('that is never late takes what was planned: at most a twentieth more in any plan, a hundredth over all', () => {
    let planned = 0;
    let happened = 0;
    for (const [index, the] of [THREE, ...MEETS].entries()) {
      const done = carried(the, () => 0);
      expectGood(the, done, `${index}`);
      planned += the.answer.total ?? 0;
      happened += done.total;
      expect(done.total, `${index}`).toBeLessThan(1.05 * (the.answer.total ?? 0));
    }
    expect(happened).toBeLessThan(1.01 * planned);
  });

  it('of three trains, one siding and one yard, late at every start, loses less than 15 %', () => {
    for (let seed = 1; seed <= 20; seed += 1) {
      const done = carried(THREE, lateUpTo(5, seed));
      expectGood(THREE, done, `${seed}`);
      expect(done.total, `${seed}`).toBeLessThanOrEqual(1.15 * (THREE.answer.total ?? 0));
    }
  });

  it.each([3, 5])(
    'of meets on lines with stations, late by up to %i s, loses less than 15 % over all of them, and never a train',
    (seconds) => {
      let planned = 0;
      let happened = 0;
      for (const [index, the] of MEETS.entries())
        for (const seed of [1, 2, 3]) {
          const lateBy = lateUpTo(seconds, seed * 100 + index);
          let late = 0;
          const done = carried(the, () => {
            const by = lateBy();
            late += by;
            return by;
          });
          expectGood(the, done, `${index}, ${seed}`);
          const plan = the.answer.total ?? 0;
          planned += plan;
          happened += done.total;
          // In a plan of a minute a crew's own lateness alone can be a seventh of it; what the order makes others lose besides is bounded
          // in every single run, at the lesser lateness.
          if (seconds === 3) expect(done.total - late, `${index}, ${seed}`).toBeLessThanOrEqual(1.15 * plan);
        }
      expect(MEETS.length).toBeGreaterThan(20);
      expect(happened).toBeLessThanOrEqual(1.15 * planned);
    },
  );

  it('that is a minute late anywhere comes to its end all the same, with no order refused', () => {
    for (const [index, the] of [THREE, ...MEETS].entries())
      for (const seed of [1, 2])
        expectGood(the, carried(the, lateUpTo(60, seed * 100 + index)), `${index}, ${seed}`);
  });

  it('whose orders are all given at once, and not when it is their turn, is refused: the order is what keeps it whole', () => {
    const all = {
      ...THREE,
      kept: { ...THREE.kept, orders: THREE.kept.orders.map((one) => ({ ...one, after: [] })) },
    };
    const done = carried(all, () => 0, { aheadSeconds: 1000 });
    expect(done.events.some(({ outcome }) => outcome === 'refused')).toBe(true);
  });
});
