/** What must never be true, over random railroads and random evenings (design: "What must never be true"). */
import fc from 'fast-check';
import { describe, expect, it } from 'vitest';
import { indexRailroad } from '../../shared-model/railroad/railroad.ts';
import { newEvening, take } from '../../shared-model/session/evening.ts';
import { sessionInput } from '../../shared-model/session/input.ts';
import { foldWithout, retractedEntries } from '../../shared-model/session/retract.ts';
import { difference } from '../proofs/differential.ts';
import { HAND_RAILROADS } from '../proofs/hand-railroads.ts';
import { changedCab } from '../support/changed-cab.ts';
import { limitsEvening } from '../support/limits-evening.ts';
import { foldsToItself, sharedLimits, whatMustNeverBe } from '../support/must-never.ts';
import { randomEvening } from '../support/random-evening.ts';
import { randomRailroad } from '../support/random-railroad.ts';

const seeds = fc.integer({ min: 1, max: 1_000_000 });

describe('over any sequence of orders and observations', () => {
  it('no two authorities share track, no turnout moves under a train by an order, and a refusal changes nothing but an ask', () => {
    fc.assert(
      fc.property(seeds, (seed) => {
        const railroad = indexRailroad(randomRailroad(seed, 6 + (seed % 9)));
        const found: string[] = [];
        randomEvening(railroad, seed, 80, (before, after) => found.push(...whatMustNeverBe(before, after)));
        expect(found).toEqual([]);
      }),
      { numRuns: 120 },
    );
  });

  it('working limits never overlap an authority of another train, and both implementations say the same of them', () => {
    let granted = 0;
    for (const document of HAND_RAILROADS)
      for (const seed of [1, 2, 3, 4, 5, 6]) {
        const script = limitsEvening(document, seed, 60);
        let evening = newEvening(indexRailroad(document));
        for (const { at, ...said } of script) {
          evening = take(evening, { at, input: sessionInput.parse(said) }).evening;
          expect(sharedLimits(evening)).toEqual([]);
        }
        expect(difference(document, script)).toBeNull();
        granted += Object.values(evening.state.authorities).filter(({ kind }) => kind === 'limits').length;
      }
    expect(granted).toBeGreaterThan(8);
  });

  it('a change of cab, its throws made in order, never has two blocks under one train on two throttles', () => {
    let across = 0;
    fc.assert(
      fc.property(seeds, (seed) => {
        const fed = changedCab(seed);
        across += fed.some((throttles) => throttles.length > 0) ? 1 : 0;
        for (const throttles of fed) expect(throttles.length).toBeLessThanOrEqual(1);
      }),
      { numRuns: 150, seed: 11 },
    );
    expect(across).toBeGreaterThan(10);
  });

  it('the fold of the log as it is written equals the state shown', () => {
    fc.assert(
      fc.property(seeds, (seed) => {
        const railroad = indexRailroad(randomRailroad(seed, 8));
        expect(foldsToItself(randomEvening(railroad, seed, 60))).toBe(true);
      }),
      { numRuns: 60 },
    );
  });

  it('judging the inputs again, retracted ones passed over, gives the state shown', () => {
    fc.assert(
      fc.property(seeds, (seed) => {
        const railroad = indexRailroad(randomRailroad(seed, 8));
        const evening = randomEvening(railroad, seed, 60);
        const folded = foldWithout(evening, retractedEntries(evening.events), Number.POSITIVE_INFINITY);
        if ('differs' in folded) throw new Error('an earlier verdict would differ');
        const { entries, at, ...rest } = folded.world.state;
        const { entries: shownEntries, at: shownAt, ...shown } = evening.state;
        expect(rest).toEqual(shown);
        expect(entries).toBeLessThanOrEqual(shownEntries);
        expect(at).toBeLessThanOrEqual(shownAt);
      }),
      { numRuns: 60 },
    );
  });

  it('taking an input leaves the evening before it untouched', () => {
    const railroad = indexRailroad(randomRailroad(7, 8));
    const evening = randomEvening(railroad, 7, 30);
    const before = JSON.stringify(evening.state);
    take(evening, { at: evening.state.at + 1, input: { do: 'note', text: 'later' } });
    expect(JSON.stringify(evening.state)).toBe(before);
  });
});
