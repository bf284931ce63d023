import { describe, expect, it } from 'vitest';
import { indexRailroad } from '../../shared-model/railroad/railroad.ts';
import { type AlarmRank, alarmRank } from '../../shared-model/session/alarms/rank.ts';
import { initialState } from '../../shared-model/session/initial.ts';
import type { SessionState } from '../../shared-model/session/state.ts';
import { passingSidingExample } from '../support/example.ts';

const railroad = indexRailroad(passingSidingExample);
const start = initialState(railroad);

/** Gap g4 lies between the passing main (knob K2) and the east end, which is wired to throttle 3 of the south bench. */
const withKnob = (position: string, more: Partial<SessionState> = {}): SessionState => ({
  ...start,
  selectors: { ...start.selectors, K2: { position, presumed: false } } as SessionState['selectors'],
  ...more,
});
const check = (voltsAcross: number) =>
  [
    { a: 'north', b: 'south', voltsA: 18, voltsB: 18, voltsAcross, at: 0, lapsed: false },
  ] as unknown as SessionState['checks'];
const bridging = { code: 'bridging', about: ['g4'] } as const;

describe('the rank of an alarm', () => {
  it.each([
    ['entered-unlined', 'book'],
    ['not-adjacent', 'book'],
    ['still-under', 'book'],
    ['entered-unauthorised', 'act'],
    ['wrong-throttle', 'act'],
    ['second-train', 'act'],
    ['breaker', 'act'],
    ['off-the-rails', 'act'],
    ['unphased-ahead', 'act'],
  ] as const)('%s is %s', (code, rank: AlarmRank) => {
    expect(alarmRank({ railroad, state: start }, { code, about: [] })).toBe(rank);
  });

  it('of a bridged gap is danger between supplies without a good check', () => {
    expect(alarmRank({ railroad, state: withKnob('1') }, bridging)).toBe('danger');
    expect(alarmRank({ railroad, state: withKnob('1', { checks: check(36) }) }, bridging)).toBe('danger');
  });

  it('of a bridged gap is act between supplies in phase, between throttles of one supply, and once a side is off', () => {
    expect(alarmRank({ railroad, state: withKnob('1', { checks: check(0.2) }) }, bridging)).toBe('act');
    expect(alarmRank({ railroad, state: withKnob('3') }, bridging)).toBe('act');
    expect(alarmRank({ railroad, state: withKnob('off') }, bridging)).toBe('act');
  });

  it('of a moved turnout is danger under a train, and act under a lock ahead of it', () => {
    const moved = { code: 'turnout-moved', about: ['T1'] } as const;
    const train = {
      ...start.trains['t7' as keyof typeof start.trains],
      placed: true,
      blocks: ['B2'],
      trail: [
        { edge: 'e3', toward: 'T2' },
        { edge: 'e2', toward: 'T1' },
      ],
      length: 2600,
    };
    const lying = { ...start, trains: { ...start.trains, t7: train } } as unknown as SessionState;
    expect(alarmRank({ railroad, state: lying }, moved)).toBe('danger');
    expect(alarmRank({ railroad, state: start }, moved)).toBe('act');
  });
});
