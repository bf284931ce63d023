/** `cabward phase` against a second computation of every answer, for readings of all kinds. */
import { array, constantFrom, double, integer, oneof, sample, tuple } from 'fast-check';
import { describe, expect, test } from 'vitest';
import { type Claimed, type Edge, relationByPaths } from '../support/phase-by-paths.ts';
import { phaseBySearch } from '../support/phase-by-search.ts';
import { cabwardJson } from '../support/run-cabward.ts';

interface PhaseJson {
  readonly verdict: string;
  readonly degrees: { readonly from: number | null; readonly to: number | null };
  readonly says: string;
}

const SEED = 4;
const rounded = (low: number, high: number) =>
  double({ min: low, max: high, noNaN: true }).map((volts) => Math.round(volts * 100) / 100);
const round = (value: number): number => Math.round(value * 100) / 100;

/** Readings as a meter shows them: two real supplies at some angle, misread a little; and three figures that have nothing to do with each other. */
const real = tuple(
  rounded(0.5, 30),
  rounded(0.5, 30),
  oneof(constantFrom(0, 60, 120, 180), rounded(0, 180)),
  double({ min: 0.97, max: 1.03, noNaN: true }),
).map(([a, b, degrees, slip]): readonly [number, number, number] => {
  const across = Math.sqrt(Math.max(0, a * a + b * b - 2 * a * b * Math.cos((degrees * Math.PI) / 180)));
  return [a, b, round(across * slip)];
});
const wild = tuple(rounded(0, 40), rounded(0, 40), rounded(0, 80));
const near = tuple(
  constantFrom(0, 0.1, 0.9, 0.99, 1, 1.01, 9, 18),
  constantFrom(0, 1, 9, 18, 18.2),
  constantFrom(0, 0.2, 0.4, 1, 6.05, 9, 15.59, 18, 31.2, 36, 36.8, 37.1),
);

const shown = (verdict: string, degrees: PhaseJson['degrees']) =>
  `${verdict} ${degrees.from?.toFixed(3) ?? '-'} ${degrees.to?.toFixed(3) ?? '-'}`;

async function agrees([a, b, across]: readonly [number, number, number], percent: number | undefined) {
  const tolerance = percent === undefined ? [] : ['--tolerance', String(percent)];
  const given = ['--volts-a', String(a), '--volts-b', String(b), '--volts-across', String(across)];
  const answer = await cabwardJson<PhaseJson>('phase', ...given, ...tolerance);
  expect(Object.keys(answer)).toEqual(['verdict', 'degrees', 'says']);
  const reference = phaseBySearch(a, b, across, percent);
  expect(answer.verdict, `${given.join(' ')} ${tolerance.join(' ')}`).toBe(reference.verdict);
  const off = a < 1 || b < 1;
  if (off && reference.from === null) return;
  expect(answer.degrees.from === null, given.join(' ')).toBe(reference.from === null);
  // Near 0° and 180° the angle is the root of what the cosine lacks of ±1, so its last digits are lost.
  expect(
    Math.abs((answer.degrees.from ?? 0) - (reference.from ?? 0)),
    shown(answer.verdict, answer.degrees),
  ).toBeLessThan(1e-3);
  expect(
    Math.abs((answer.degrees.to ?? 0) - (reference.to ?? 0)),
    shown(answer.verdict, answer.degrees),
  ).toBeLessThan(1e-3);
}

describe('verdict and angles of one check are those of a search over all angles', () => {
  test.each([
    ['readings of real supplies', real, 90],
    ['any three figures', wild, 60],
    ['readings at the edges', near, 80],
  ] as const)('%s', async (_, readings, count) => {
    const tolerances = sample(constantFrom(undefined, 0, 0.5, 2, 5, 10, 50), { seed: SEED, numRuns: count });
    const drawn = sample(readings, { seed: SEED, numRuns: count });
    for (const [index, reading] of drawn.entries()) await agrees(reading, tolerances[index]);
  });
});

test('several checks combine as a walk over all their paths and cycles does, the latest of a pair counting', async () => {
  const NAMES = ['a', 'b', 'c', 'd', 'e'];
  const ACROSS = [0.3, 0.3, 36, 36, 31.18, 10, 50];
  const verdicts = new Map(ACROSS.map((across) => [across, phaseBySearch(18, 18, across).verdict]));
  const checks = array(
    tuple(integer({ min: 0, max: 4 }), integer({ min: 1, max: 4 }), constantFrom(...ACROSS)),
    { minLength: 1, maxLength: 8 },
  );
  for (const drawn of sample(checks, { seed: SEED, numRuns: 80 })) {
    const made = drawn.map(([first, step, across]) => {
      const [a, b] = [NAMES[first] ?? 'a', NAMES[(first + step) % 5] ?? 'b'];
      return { a, b, across, verdict: verdicts.get(across) ?? 'unclear' };
    });
    const latest = new Map(made.map((check) => [[check.a, check.b].sort().join(), check]));
    const edges = [...latest.values()]
      .filter(({ verdict }) => verdict !== 'unclear' && verdict !== 'inconsistent')
      .map(({ a, b, verdict }): Edge => ({ a, b, verdict: verdict as Claimed }));
    const answer = await cabwardJson<{
      checks: { a: string; b: string; verdict: string }[];
      pairs: { a: string; b: string; relation: string }[];
      says: string;
    }>('phase', ...made.flatMap(({ a, b, across }) => ['--check', `${a}:${b}:18:18:${across}`]));
    expect(answer.checks.map(({ a, b, verdict }) => ({ a, b, verdict }))).toEqual(
      made.map(({ a, b, verdict }) => ({ a, b, verdict })),
    );
    const supplies = new Set(made.flatMap(({ a, b }) => [a, b])).size;
    expect(answer.pairs).toHaveLength((supplies * (supplies - 1)) / 2);
    for (const { a, b, relation } of answer.pairs) expect(relation).toBe(relationByPaths(edges, a, b));
  }
});
