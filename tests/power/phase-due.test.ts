/** Which checks are due, and which gaps are barred as the knobs stand. */
import { describe, expect, test } from 'vitest';
import { type BlockId, type SupplyId, supplyId, type ThrottleId } from '../../shared-model/ids.ts';
import { barredGaps } from '../../shared-model/power/barred-gaps.ts';
import { type AgedCheck, checksDue } from '../../shared-model/power/phase-due.ts';
import { railroadDocument } from '../../shared-model/railroad/document.ts';
import { indexRailroad } from '../../shared-model/railroad/railroad.ts';
import { passingSidingExample } from '../support/example.ts';

const railroad = indexRailroad(passingSidingExample);
const id = (text: string): SupplyId => supplyId.parse(text);
const measured = (voltsAcross: number, age = 60, more: Partial<AgedCheck> = {}): AgedCheck => ({
  a: id('south'),
  b: id('north'),
  voltsA: 18,
  voltsB: 18,
  voltsAcross,
  age,
  ...more,
});
const HOUR = 3600;

describe('checks that are due', () => {
  const why = (...checks: AgedCheck[]) => checksDue(railroad, checks, 12 * HOUR).map((due) => due.why);

  test('are those of supplies that meet at a gap and were never checked, with how many gaps wait', () => {
    expect(checksDue(railroad, [], 12 * HOUR)).toEqual([{ a: 'north', b: 'south', why: 'never', gaps: 4 }]);
  });

  test('are none once the pair has a verdict, also a bad one', () => {
    expect(why(measured(0.4))).toEqual([]);
    expect(why(measured(36))).toEqual([]);
  });

  test('are those that lapsed, grew old, or gave no verdict', () => {
    expect(why(measured(0.4, 60, { lapsed: true }))).toEqual(['lapsed']);
    expect(why(measured(0.4, 13 * HOUR))).toEqual(['old']);
    expect(why(measured(10))).toEqual(['no-verdict']);
  });

  test('are none where no two supplies can meet', () => {
    const [north] = passingSidingExample.supplies;
    if (north === undefined) throw new Error('the example has two supplies');
    const single = railroadDocument.parse({
      ...passingSidingExample,
      throttles: passingSidingExample.throttles.map((throttle) => ({ ...throttle, supply: north.id })),
    });
    expect(checksDue(indexRailroad(single), [], 12 * HOUR)).toEqual([]);
  });
});

describe('barred gaps', () => {
  /** Cab 1 (north) on the west, the main as given, cab 3 (south) on the east, the siding off. */
  const barred = (main: string | null, ...checks: AgedCheck[]) => {
    const fed: Readonly<Record<string, string | null>> = { B1: '1', B2: main, B3: null, B4: '3' };
    const at = (block: BlockId) => (fed[block] ?? null) as ThrottleId | null;
    return Object.fromEntries(barredGaps(railroad, checks, at));
  };

  test('lie between live blocks on two supplies that are not in phase, with the reason', () => {
    expect(barred('1', measured(36))).toEqual({ g4: 'reversed' });
    expect(barred('1', measured(31.2))).toEqual({ g4: 'different legs' });
    expect(barred('3')).toEqual({ g1: 'phase not checked' });
  });

  test('are none once the supplies are in phase, beside a dead block, or on one supply', () => {
    expect(barred('1', measured(0.4))).toEqual({});
    expect(barred(null)).toEqual({});
    expect(barred('2', measured(0.4))).toEqual({});
  });
});
