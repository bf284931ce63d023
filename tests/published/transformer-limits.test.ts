/** What the standards for toy transformers say, against what the power room warns of. */
import { describe, expect, test } from 'vitest';
import { supplyId } from '../../shared-model/ids.ts';
import { auditPhase } from '../../shared-model/power/audit-phase.ts';
import { beyondToyLimits, TOUCHABLE_VOLTS } from '../../shared-model/power/supply-limits.ts';
import { indexRailroad } from '../../shared-model/railroad/railroad.ts';
import { passingSidingExample } from '../support/example.ts';

const supply = (ratedVa: number, maxVolts: number) => ({
  name: 'Bench',
  ratedVa,
  maxVolts,
  wave: 'sine' as const,
});

describe('IEC 61558-2-7: at most 200 VA, 10 A and 24 V AC rated output', () => {
  test('a supply at all three limits is within them', () => {
    expect(beyondToyLimits(supply(200, 20))).toEqual([]);
    expect(beyondToyLimits(supply(180, 18))).toEqual([]);
    expect(beyondToyLimits(supply(200, 24))).toEqual([]);
  });

  test.each([
    ['275 VA', supply(275, 24), ['gives 275 VA; 200 VA', 'gives 11.5 A at 24 V; 10 A']],
    ['more than 10 A', supply(190, 16), ['gives 11.9 A at 16 V; 10 A']],
    ['more than 24 V', supply(100, 26), ['gives 26 V; 24 V AC']],
  ])('a supply of %s is warned of', (_, given, warnings) => {
    const found = beyondToyLimits(given);
    expect(found).toHaveLength(warnings.length);
    warnings.forEach((warning, index) => {
      expect(found[index]).toContain(warning);
      expect(found[index]).toContain('IEC 61558-2-7');
    });
  });

  test('direct current may be rated up to 33 V', () => {
    expect(beyondToyLimits({ ...supply(200, 33), wave: 'dc' })).toEqual([]);
    expect(beyondToyLimits({ ...supply(200, 34), wave: 'dc' })).toHaveLength(1);
  });
});

// NEC chapter 9 table 11(A) and IEC 61558-2-7: 30 V and 33 V; two 18 V supplies out of phase make 36 V.
test('two supplies of 18 V out of phase exceed what may be touched', () => {
  expect(18 + 18).toBeGreaterThan(TOUCHABLE_VOLTS);
  expect(TOUCHABLE_VOLTS).toBe(30);
});

// MOROP NEM 609 (2010), 6.1: connecting outputs of several transformers in series or in parallel is forbidden.
test('an unphased gap is refused for the reason of NEM 609', () => {
  const check = {
    a: supplyId.parse('north'),
    b: supplyId.parse('south'),
    voltsA: 18,
    voltsB: 18,
    voltsAcross: 36,
  };
  const findings = auditPhase(indexRailroad(passingSidingExample), [check]);
  expect(findings.map((finding) => finding.code)).toContain('unphased-gap');
  for (const { remedy } of findings)
    expect(remedy).toMatch(
      /NEM 609, section 6\.1, forbids connecting the outputs of several transformers.*mains voltage/,
    );
});
