/** The engine against a second implementation of the session's rules, written from the design alone, on random evenings of every verb. */
import { describe, expect, it } from 'vitest';
import { agreesOn } from '../support/two-implementations.ts';

const SEEDS = Array.from({ length: 60 }, (_, index) => index + 1);

describe('two implementations of the same rules', () => {
  it(`agree on every verdict and every state of ${SEEDS.length} random evenings`, () => {
    const differences = SEEDS.flatMap((seed) => {
      const difference = agreesOn(seed);
      return difference === null ? [] : [`evening ${seed}, ${difference}`];
    });
    expect(differences).toEqual([]);
  });
});
