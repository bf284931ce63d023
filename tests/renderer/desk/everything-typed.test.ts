/** Everything that can be ordered or observed can be typed: each input of a whole club night and of random evenings has a line that means it and nothing else. */
import { describe, expect, it } from 'vitest';
import { indexRailroad, type Railroad } from '../../../shared-model/railroad/railroad.ts';
import { clubNight } from '../../support/club-night.ts';
import { MILL_BRANCH } from '../../support/mill-branch.ts';
import { randomEvening } from '../../support/random-evening.ts';
import { typedLine } from '../../support/typed-line.ts';
import { clubRailroad } from '../support/club-railroad.ts';

/** The inputs of an evening that no line says; the opening is a button. */
function untyped(railroad: Railroad, seed: number, length: number): readonly string[] {
  const found: string[] = [];
  randomEvening(railroad, seed, length, (before, after) => {
    const input = after.events.at(-1)?.input;
    if (input === undefined || input.do === 'open-session') return;
    // Nobody at the Desk has the number of an authority that was never granted.
    if (input.do === 'annul' && !(input.authority in before.state.authorities)) return;
    if (typedLine(before, input) === null) found.push(`seed ${seed}: ${JSON.stringify(input)}`);
  });
  return found;
}

describe('everything that can be ordered or observed', () => {
  it('can be typed: the whole club night of 178 lines', () => {
    const lines = clubNight();
    expect(lines).toHaveLength(177);
    expect(lines.filter(({ line }) => line === null)).toEqual([]);
  });

  it('can be typed by one hand: no key of it has to be held while another is pressed, but for the capitals of names', () => {
    const chords = clubNight().flatMap(({ line, input }) => {
      const free = Object.values(input).filter((value) => typeof value === 'string' && /[A-Z]/.test(value));
      const plain = free.reduce((left, name) => left.replace(String(name), ''), line ?? '');
      return /^[a-z0-9 ,.]*$/.test(plain) ? [] : [line];
    });
    expect(chords).toEqual([]);
  });

  it.each([
    ['the mill branch', indexRailroad(MILL_BRANCH)],
    ['a club railroad', clubRailroad()],
  ])('can be typed on %s, whatever comes', (_, railroad) => {
    expect([1, 2, 3].flatMap((seed) => untyped(railroad, seed, 120))).toEqual([]);
  });
});
