/** Phase: the interval of the angle, the five verdicts and what each says. */
import Complex from 'complex.js';
import { assert, configureGlobal, constantFrom, double, integer, property, record } from 'fast-check';
import { describe, expect, test } from 'vitest';
import { angleInterval } from '../../shared-model/power/angle-interval.ts';
import { voltsBetween } from '../../shared-model/power/bridging.ts';
import { checkPhase, type PhaseVerdict } from '../../shared-model/power/phase.ts';

// The same seed always draws the same inputs, so that what fails here fails everywhere.
configureGlobal({ seed: 4 });

/** Independent reference: two phasors as complex numbers, and the length of their difference. */
function phasorAcross(voltsA: number, voltsB: number, degrees: number): number {
  const a = new Complex({ abs: voltsA, arg: 0 });
  const b = new Complex({ abs: voltsB, arg: (degrees * Math.PI) / 180 });
  return a.sub(b).abs();
}

const volts = double({ min: 2, max: 30, noNaN: true });
const angle = double({ min: 0, max: 180, noNaN: true });
const tolerance = constantFrom(0, 0.5, 2, 5, 10);
/** Where in its tolerance a meter reads: -1 the low end, 1 the high end. */
const slip = double({ min: -1, max: 1, noNaN: true });

/**
 * A reading from which the truth is within tolerance: the tolerance is a share of the reading itself, 0.2 V at the least.
 * The lowest such reading is the truth less its margin there, the highest the truth and its margin there; `where` lies between.
 */
function misread(truth: number, tolerancePercent: number, where: number): number {
  const share = tolerancePercent / 100;
  const lowest = Math.max(Math.min(truth / (1 + share), truth - 0.2), 0);
  const highest = Math.max(truth / (1 - share), truth + 0.2);
  return where < 0 ? truth + where * (truth - lowest) : truth + where * (highest - truth);
}

describe('the interval of the angle', () => {
  test('contains the true angle for every three readings within tolerance', () => {
    assert(
      property(
        record({
          a: volts,
          b: volts,
          degrees: angle,
          tolerance,
          slips: record({ a: slip, b: slip, across: slip }),
        }),
        ({ a, b, degrees, tolerance: percent, slips }) => {
          const across = phasorAcross(a, b, degrees);
          const interval = angleInterval(
            {
              voltsA: misread(a, percent, slips.a),
              voltsB: misread(b, percent, slips.b),
              voltsAcross: misread(across, percent, slips.across),
            },
            percent,
          );
          expect(interval).not.toBeNull();
          expect(interval?.from).toBeLessThanOrEqual(degrees + 1e-5);
          expect(interval?.to).toBeGreaterThanOrEqual(degrees - 1e-5);
        },
      ),
      { numRuns: 2000 },
    );
  });

  test('is there for readings at the very end of their tolerance, whatever is lost to rounding', () => {
    // 2 V read as 1.8 V, 15.78 V as 15.98 V, and 13.78 V across as 13.58 V: in phase, each misread by all of 0.2 V.
    const [a, b] = [2, 15.783050098763207];
    for (const hair of [0, 4e-15, 1e-14])
      expect(
        angleInterval({ voltsA: a - 0.2 + hair, voltsB: b + 0.2 - hair, voltsAcross: b - a - 0.2 + hair }, 0),
      ).not.toBeNull();
  });

  test('contains no angle that a grid over the tolerances does not come near', () => {
    assert(
      property(volts, volts, angle, (a, b, degrees) => {
        const across = phasorAcross(a, b, degrees);
        const interval = angleInterval({ voltsA: a, voltsB: b, voltsAcross: across });
        const steps = (reading: number) => {
          const margin = Math.max(reading * 0.02, 0.2);
          return Array.from({ length: 21 }, (_, i) => Math.max(reading + margin * (i / 10 - 1), 0));
        };
        const cosines = steps(a).flatMap((x) =>
          steps(b).flatMap((y) => steps(across).map((z) => (x * x + y * y - z * z) / (2 * x * y))),
        );
        const clamp = (cosine: number) => (Math.acos(Math.min(1, Math.max(-1, cosine))) * 180) / Math.PI;
        expect(interval?.from).toBeLessThanOrEqual(clamp(Math.max(...cosines)) + 1e-9);
        expect(Math.cos(((interval?.to ?? 0) * Math.PI) / 180)).toBeGreaterThan(
          Math.min(...cosines, 1) - 0.01,
        );
        expect(interval?.to).toBeGreaterThanOrEqual(clamp(Math.min(...cosines)) - 1e-9);
      }),
      { numRuns: 60 },
    );
  });

  test('grows with the tolerance', () => {
    assert(
      property(volts, volts, angle, (a, b, degrees) => {
        const readings = { voltsA: a, voltsB: b, voltsAcross: phasorAcross(a, b, degrees) };
        const [narrow, wide] = [angleInterval(readings, 2), angleInterval(readings, 10)];
        expect(wide?.from).toBeLessThanOrEqual((narrow?.from ?? Number.NaN) + 1e-9);
        expect(wide?.to).toBeGreaterThanOrEqual((narrow?.to ?? Number.NaN) - 1e-9);
      }),
    );
  });

  test('is the same with the two supplies exchanged', () => {
    assert(
      property(volts, volts, double({ min: 0, max: 60, noNaN: true }), (a, b, across) => {
        expect(angleInterval({ voltsA: b, voltsB: a, voltsAcross: across })).toEqual(
          angleInterval({ voltsA: a, voltsB: b, voltsAcross: across }),
        );
      }),
    );
  });

  test('there is none when the readings break the triangle inequality by more than the tolerance', () => {
    expect(angleInterval({ voltsA: 18, voltsB: 18, voltsAcross: 40 })).toBeNull();
    expect(angleInterval({ voltsA: 18, voltsB: 10, voltsAcross: 2 })).toBeNull();
    expect(angleInterval({ voltsA: 18, voltsB: 18, voltsAcross: 37 })).not.toBeNull();
  });
});

describe('the volts between two phasors', () => {
  test('are those of complex numbers', () => {
    assert(
      property(volts, volts, integer({ min: -360, max: 360 }), (a, b, degrees) => {
        expect(voltsBetween(a, b, degrees)).toBeCloseTo(phasorAcross(a, b, degrees), 9);
      }),
    );
  });
});

describe('the verdict', () => {
  const cases: readonly [voltsA: number, voltsB: number, voltsAcross: number, verdict: PhaseVerdict][] = [
    [18, 18, 0, 'in-phase'],
    [18, 18, 0.4, 'in-phase'],
    [18, 12, 6, 'in-phase'],
    [18, 18, 36, 'reversed'],
    [18, 12, 30, 'reversed'],
    [18, 18, 31.18, 'different-legs'],
    [18, 18, 18, 'different-legs'],
    [18, 12, 26.15, 'different-legs'],
    [16, 12, 20, 'unclear'],
    [18, 18, 10, 'unclear'],
    [18, 18, 40, 'inconsistent'],
    [18, 10, 2, 'inconsistent'],
    [0.9, 18, 18.5, 'unclear'],
    [18, 0, 18, 'unclear'],
    [0.5, 18, 40, 'unclear'],
  ];
  test.each(cases)('of %d V, %d V and %d V across is %s', (voltsA, voltsB, voltsAcross, verdict) => {
    expect(checkPhase({ voltsA, voltsB, voltsAcross }).verdict).toBe(verdict);
  });

  test('in phase ends below 20°, not at it: a wider tolerance makes the same readings unclear', () => {
    const readings = { voltsA: 18, voltsB: 18, voltsAcross: 5.5 };
    expect(checkPhase(readings)).toMatchObject({ verdict: 'in-phase' });
    expect(checkPhase({ ...readings, tolerancePercent: 10 })).toMatchObject({ verdict: 'unclear' });
    const edge = checkPhase({ voltsA: 18, voltsB: 18, voltsAcross: 5.9 });
    expect(edge.degrees.to).toBeLessThan(20);
    expect(edge.verdict).toBe('in-phase');
    const beyond = checkPhase({ voltsA: 18, voltsB: 18, voltsAcross: 6.1 });
    expect(beyond.degrees.to).toBeGreaterThan(20);
    expect(beyond.verdict).toBe('unclear');
  });

  test('follows its definition from the interval, whatever the readings', () => {
    assert(
      property(volts, volts, double({ min: 0, max: 62, noNaN: true }), (voltsA, voltsB, voltsAcross) => {
        const { verdict, degrees } = checkPhase({ voltsA, voltsB, voltsAcross });
        const { from, to } = degrees;
        if (from === null || to === null) {
          expect(verdict).toBe('inconsistent');
          return;
        }
        const holds = (value: number) => from <= value && value <= to;
        const expected =
          to < 20
            ? 'in-phase'
            : holds(180) && from > 135
              ? 'reversed'
              : holds(60) || holds(120)
                ? 'different-legs'
                : 'unclear';
        expect(verdict).toBe(expected);
      }),
      { numRuns: 1000 },
    );
  });

  test('says whose handle to turn up where a supply is as good as off', () => {
    expect(checkPhase({ voltsA: 18, voltsB: 0.3, voltsAcross: 18 })).toMatchObject({
      verdict: 'unclear',
      says: expect.stringContaining('B reads below 1 V'),
      remedy: expect.stringContaining('Turn B up full'),
    });
  });
});

describe('waves that are not sine', () => {
  // A phase-fired 9 V against a full 18 V in phase reads 15.59 V across: the cosine law would call it 60°.
  const chopped = { voltsA: 18, voltsB: 9, voltsAcross: 15.59 };

  test('a chopped 18/9/15.59 pair in phase is not called different legs', () => {
    expect(checkPhase({ ...chopped, waves: ['chopped', 'chopped'] }).verdict).toBe('unclear');
    expect(checkPhase({ ...chopped, waves: ['sine', 'unknown'] })).toMatchObject({
      verdict: 'unclear',
      remedy: expect.stringContaining('Turn both handles full up'),
    });
  });

  test('different legs is said of them when both handles were full up', () => {
    const full = { voltsA: 18, voltsB: 18, voltsAcross: 31.2, waves: ['chopped', 'unknown'] as const };
    expect(checkPhase(full).verdict).toBe('unclear');
    expect(checkPhase({ ...full, handlesFull: true }).verdict).toBe('different-legs');
  });

  test('reversed and in phase are said of them as of sine', () => {
    const waves = ['chopped', 'unknown'] as const;
    expect(checkPhase({ voltsA: 18, voltsB: 18, voltsAcross: 36, waves }).verdict).toBe('reversed');
    expect(checkPhase({ voltsA: 18, voltsB: 18, voltsAcross: 0.3, waves }).verdict).toBe('in-phase');
  });

  test('direct current has no phase', () => {
    expect(checkPhase({ voltsA: 18, voltsB: 18, voltsAcross: 0.3, waves: ['dc', 'sine'] }).verdict).toBe(
      'unclear',
    );
  });
});

describe('an in-phase pair', () => {
  test('says the volts across, and is matched up to 1 V', () => {
    const close = checkPhase({ voltsA: 18, voltsB: 17.8, voltsAcross: 0.6 });
    expect(close).toMatchObject({ matched: true, says: expect.stringContaining('0.6 V across') });
  });

  test('above 1 V, or what was set, it is not matched and both handles are to be brought together', () => {
    const far = checkPhase({ voltsA: 18, voltsB: 14, voltsAcross: 4 });
    expect(far).toMatchObject({
      verdict: 'in-phase',
      matched: false,
      says: expect.stringContaining('In phase, not matched'),
      remedy: expect.stringContaining('Bring both handles to the same speed'),
    });
    expect(checkPhase({ voltsA: 18, voltsB: 14, voltsAcross: 4, matchedVolts: 5 }).matched).toBe(true);
  });
});

test('the remedy for reversed cuts nothing and adapts nothing', () => {
  const { remedy } = checkPhase({ voltsA: 18, voltsB: 18, voltsAcross: 36 });
  expect(remedy).toContain('Unplug both');
  expect(remedy).toContain('Never cut a blade or an earth pin, and never use an adapter');
  expect(remedy).toContain('only for a supply with a single output');
});
