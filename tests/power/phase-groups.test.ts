/** Several phase checks combined, against a brute force over all simple paths and cycles. */
import { array, assert, boolean, configureGlobal, constantFrom, integer, property, record } from 'fast-check';
import { describe, expect, test } from 'vitest';
import { type SupplyId, supplyId } from '../../shared-model/ids.ts';
import { voltsBetween } from '../../shared-model/power/bridging.ts';
import { contradictions, type PairCheck, phaseRelation } from '../../shared-model/power/phase-groups.ts';
import { type Claimed, type Edge, relationByPaths } from '../support/phase-by-paths.ts';

// The same seed always draws the same inputs, so that what fails here fails everywhere.
configureGlobal({ seed: 4 });

const id = (text: string): SupplyId => supplyId.parse(text);
const ACROSS = {
  'in-phase': 0.3,
  reversed: 36,
  'different-legs': 31.18,
  unclear: 10,
  inconsistent: 50,
} as const;
type Outcome = keyof typeof ACROSS;

/** A check of two supplies at 18 V that comes out as named. */
const check = (a: string, b: string, outcome: Outcome, lapsed = false): PairCheck => ({
  a: id(a),
  b: id(b),
  voltsA: 18,
  voltsB: 18,
  voltsAcross: ACROSS[outcome],
  lapsed,
});
const relation = (checks: readonly PairCheck[], a: string, b: string) => phaseRelation(checks, id(a), id(b));

describe('combining', () => {
  test('a supply is the same as itself, and unknown to one never checked', () => {
    expect(relation([], 'a', 'a')).toBe('same');
    expect(relation([], 'a', 'b')).toBe('unknown');
  });

  test('in phase with a third is in phase with each other', () => {
    expect(relation([check('a', 'b', 'in-phase'), check('c', 'b', 'in-phase')], 'a', 'c')).toBe('in-phase');
  });

  test('reversed twice is in phase, once is reversed', () => {
    const checks = [check('a', 'b', 'reversed'), check('b', 'c', 'reversed'), check('c', 'd', 'in-phase')];
    expect(relation(checks, 'a', 'c')).toBe('in-phase');
    expect(relation(checks, 'd', 'b')).toBe('reversed');
  });

  test('different legs once with in-phase or reversed is different legs, twice is unknown', () => {
    const checks = [
      check('a', 'b', 'different-legs'),
      check('b', 'c', 'reversed'),
      check('c', 'd', 'different-legs'),
    ];
    expect(relation(checks, 'a', 'c')).toBe('different-legs');
    expect(relation(checks, 'a', 'd')).toBe('unknown');
    expect(contradictions(checks)).toEqual([]);
  });

  test('the latest check of a pair replaces the former, whichever way round it was made', () => {
    expect(relation([check('a', 'b', 'reversed'), check('b', 'a', 'in-phase')], 'a', 'b')).toBe('in-phase');
  });

  test.each(['unclear', 'inconsistent'] as const)('a later %s check leaves the pair unknown', (outcome) => {
    expect(relation([check('a', 'b', 'in-phase'), check('a', 'b', outcome)], 'a', 'b')).toBe('unknown');
  });

  test('an unclear pair may still follow from others', () => {
    const checks = [check('a', 'b', 'unclear'), check('a', 'c', 'in-phase'), check('c', 'b', 'reversed')];
    expect(relation(checks, 'a', 'b')).toBe('reversed');
  });

  test('a lapsed check says nothing', () => {
    expect(relation([check('a', 'b', 'in-phase', true)], 'a', 'b')).toBe('unknown');
  });
});

describe('a cycle that contradicts itself', () => {
  const triangle = [check('a', 'b', 'in-phase'), check('b', 'c', 'in-phase'), check('a', 'c', 'reversed')];

  test('is unknown for each pair on it, and named with the checks on it', () => {
    for (const [a, b] of [
      ['a', 'b'],
      ['b', 'c'],
      ['a', 'c'],
    ] as const)
      expect(relation(triangle, a, b)).toBe('unknown');
    expect(contradictions(triangle)).toHaveLength(1);
    expect(new Set(contradictions(triangle)[0])).toEqual(new Set(triangle));
  });

  test('does not touch a check beside it', () => {
    const checks = [...triangle, check('c', 'd', 'in-phase')];
    expect(relation(checks, 'c', 'd')).toBe('in-phase');
    expect(relation(checks, 'a', 'd')).toBe('unknown');
  });

  test('a single different-legs check between two that are in phase by others contradicts them', () => {
    const checks = [
      check('a', 'b', 'in-phase'),
      check('b', 'c', 'reversed'),
      check('a', 'c', 'different-legs'),
    ];
    expect(relation(checks, 'a', 'b')).toBe('unknown');
    expect(contradictions(checks)[0]).toHaveLength(3);
  });

  test('three outlets on three legs do not contradict each other', () => {
    const checks = [
      check('a', 'b', 'different-legs'),
      check('b', 'c', 'different-legs'),
      check('a', 'c', 'different-legs'),
    ];
    expect(contradictions(checks)).toEqual([]);
    expect(relation(checks, 'a', 'c')).toBe('different-legs');
  });

  test('goes when one of its checks is made again and agrees', () => {
    const checks = [...triangle, check('c', 'a', 'in-phase')];
    expect(contradictions(checks)).toEqual([]);
    expect(relation(checks, 'a', 'c')).toBe('in-phase');
  });
});

const NAMES = ['a', 'b', 'c', 'd', 'e'] as const;
test('combining agrees with the brute force over all simple paths, for any checks', () => {
  const anyCheck = record({
    a: integer({ min: 0, max: 4 }),
    step: integer({ min: 1, max: 4 }),
    outcome: constantFrom<Outcome>(
      'in-phase',
      'in-phase',
      'reversed',
      'reversed',
      'different-legs',
      'unclear',
    ),
    lapsed: boolean(),
  });
  assert(
    property(array(anyCheck, { maxLength: 9 }), (drawn) => {
      const latest = new Map<string, Edge & { outcome: Outcome; lapsed: boolean }>();
      const checks = drawn.map(({ a, step, outcome, lapsed }) => {
        const [one, other] = [NAMES[a] ?? 'a', NAMES[(a + step) % 5] ?? 'b'];
        const verdict: Claimed = outcome === 'unclear' ? 'in-phase' : (outcome as Claimed);
        latest.set([one, other].sort().join(), { a: one, b: other, verdict, outcome, lapsed });
        return check(one, other, outcome, lapsed);
      });
      const edges = [...latest.values()].filter((edge) => !edge.lapsed && edge.outcome !== 'unclear');
      for (const one of NAMES)
        for (const other of NAMES) {
          if (one === other) continue;
          expect(relation(checks, one, other)).toBe(relationByPaths(edges, one, other));
        }
    }),
    { numRuns: 600 },
  );
});

test('combining never contradicts the pairwise truth: supplies with real angles, any of them checked', () => {
  // Angles a plug or an outlet can make: three legs, each plugged in either way.
  const supplies = array(constantFrom(0, 60, 120, 180, 240, 300), { minLength: 5, maxLength: 5 });
  const pairs = array(record({ a: integer({ min: 0, max: 4 }), step: integer({ min: 1, max: 4 }) }), {
    maxLength: 10,
  });
  assert(
    property(supplies, pairs, (angles, made) => {
      const truth = (a: number, b: number): Claimed => {
        const apart = Math.abs((angles[a] ?? 0) - (angles[b] ?? 0)) % 360;
        return apart === 0 ? 'in-phase' : apart === 180 ? 'reversed' : 'different-legs';
      };
      const checks = made.map(({ a, step }) => {
        const b = (a + step) % 5;
        const across = voltsBetween(18, 17, (angles[a] ?? 0) - (angles[b] ?? 0));
        return {
          a: id(NAMES[a] ?? 'a'),
          b: id(NAMES[b] ?? 'b'),
          voltsA: 18,
          voltsB: 17,
          voltsAcross: across,
        };
      });
      expect(contradictions(checks)).toEqual([]);
      for (let a = 0; a < 5; a += 1)
        for (let b = 0; b < 5; b += 1) {
          if (a === b) continue;
          expect(['unknown', truth(a, b)]).toContain(relation(checks, NAMES[a] ?? 'a', NAMES[b] ?? 'b'));
        }
    }),
    { numRuns: 600 },
  );
});
