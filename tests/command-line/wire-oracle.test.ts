/** `cabward wire` against a second computation of every answer: the loop solved as a circuit, the judgements by the design's table. */
import { constantFrom, double, integer, oneof, record, sample } from 'fast-check';
import { expect, test } from 'vitest';
import { cabward } from '../support/run-cabward.ts';
import { loop, pieceOhms } from '../support/wire-by-nodes.ts';

interface WireJson {
  readonly ohms: number;
  readonly dropVolts: number;
  readonly dropPercent: number;
  readonly shortAmps: number;
  readonly findings: readonly { readonly code: string; readonly severity: string }[];
}

/** The largest breaker by gauge, as the design lists it: what lies between two has that of the lighter. */
function capOf(awg: number): number {
  if (awg > 18) return 3;
  if (awg > 16) return 7;
  if (awg > 14) return 10;
  if (awg > 12) return 15;
  if (awg > 10) return 20;
  return awg === 10 ? 30 : Number.POSITIVE_INFINITY;
}

const figures = record({
  awg: oneof(integer({ min: 10, max: 24 }), integer({ min: -3, max: 40 })),
  run: oneof(constantFrom(1, 299, 300, 301, 7620), integer({ min: 1, max: 60_000 })),
  amps: double({ min: 0.05, max: 12, noNaN: true }),
  volts: constantFrom(6, 12, 16, 18, 18.5, 24, 30),
  breaker: constantFrom(undefined, undefined, 3, 5, 7, 7.1, 10, 15, 20, 30),
  celsius: constantFrom(undefined, 20, 0, -20, 40, 75, 90),
});

const SECTIONS = 5;

test('ohms, drop, short, findings and exit status are those of a circuit solved another way', async () => {
  const errors = new Set<string>();
  for (const drawn of sample(figures, { seed: 4, numRuns: 300 })) {
    const { awg, run, amps, volts, breaker, celsius } = drawn;
    const options = Object.entries(drawn).flatMap(([name, value]) =>
      value === undefined ? [] : [`--${name}`, String(value)],
    );
    const { status, out, err } = await cabward('wire', ...options, '--json');
    expect(err).toBe('');
    const answer = JSON.parse(out) as WireJson;
    expect(Object.keys(answer)).toEqual(['ohms', 'dropVolts', 'dropPercent', 'shortAmps', 'findings']);

    const oneWay = pieceOhms({ awg, run }, celsius);
    const wire = new Array<number>(SECTIONS).fill(oneWay / SECTIONS);
    const drop = volts - loop(volts, wire, wire, { amps }).voltsAtLoad;
    const short = loop(volts, wire, wire, 'short').amps;
    const close = (value: number, reference: number) =>
      expect(Math.abs(value / reference - 1), options.join(' ')).toBeLessThan(1e-4);
    close(answer.ohms, 2 * oneWay);
    close(answer.dropVolts, drop);
    close(answer.dropPercent, (drop / volts) * 100);
    close(answer.shortAmps, short);

    const expected: string[] = [];
    if (breaker !== undefined && breaker > capOf(awg))
      expected.push(run <= 300 ? 'undersized-wire warning' : 'undersized-wire error');
    else if (awg > 16) expected.push('undersized-wire warning');
    if (drop / volts > 0.05) expected.push('voltage-drop warning');
    if (breaker !== undefined && short < 2 * breaker) expected.push('slow-trip error');
    const found = answer.findings.map(({ code, severity }) => `${code} ${severity}`);
    expect([...found].sort(), options.join(' ')).toEqual(expected.sort());
    expect(status).toBe(expected.some((each) => each.endsWith('error')) ? 1 : 0);
    for (const each of expected) errors.add(each);
  }
  // The inputs reach every judgement.
  expect([...errors].sort()).toEqual([
    'slow-trip error',
    'undersized-wire error',
    'undersized-wire warning',
    'voltage-drop warning',
  ]);
});
