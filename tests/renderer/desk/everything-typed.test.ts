/** Everything that can be ordered or observed can be typed: each input of a whole club night and of random evenings has a line that means it and nothing else. */
import { readFileSync } from 'node:fs';
import { describe, expect, it } from 'vitest';
import { readTyped } from '../../../renderer/desk/entry-line/read-typed.ts';
import { lookAhead } from '../../../shared-model/planning/look-ahead.ts';
import { indexRailroad, type Railroad } from '../../../shared-model/railroad/railroad.ts';
import { type Evening, newEvening, take } from '../../../shared-model/session/evening.ts';
import type { SessionInput } from '../../../shared-model/session/input.ts';
import { parseScript } from '../../../shared-model/session/script.ts';
import { linesFor } from '../../support/desk-lines.ts';
import { MILL_BRANCH } from '../../support/mill-branch.ts';
import { randomEvening } from '../../support/random-evening.ts';
import { clubRailroad } from '../support/club-railroad.ts';

const RECENT = 60;

/** Whether one of the lines for an input means it and nothing else. */
function canBeTyped(evening: Evening, input: SessionInput): boolean {
  const { railroad, state, events } = evening;
  const context = { railroad, state, recent: events.slice(-RECENT) };
  return linesFor(evening, input).some(({ line }) => {
    const reading = readTyped(context, line);
    if (reading.kind !== 'one' || reading.proposal.act.kind !== 'send') return false;
    const { items } = reading.proposal.act;
    return (
      items.length === 1 && sorted(items[0]?.input) === sorted(input) && items[0]?.otherwise === undefined
    );
  });
}

/** The fields by name; "no overhang" is left out as often as it is said. */
const sorted = (value: unknown): string =>
  JSON.stringify(value, (_, part) =>
    part !== null && typeof part === 'object' && !Array.isArray(part)
      ? Object.fromEntries(
          Object.entries(part)
            .filter(([name, said]) => !(name === 'overhang' && said === false))
            .toSorted(([one], [other]) => (one < other ? -1 : 1)),
        )
      : part,
  );

/** The inputs of an evening that no line says; the opening is a button. */
function untyped(railroad: Railroad, seed: number, length: number): readonly string[] {
  const found: string[] = [];
  randomEvening(railroad, seed, length, (before, after) => {
    const input = after.events.at(-1)?.input;
    if (input === undefined || input.do === 'open-session') return;
    // Nobody at the Desk has the number of an authority that was never granted.
    if (input.do === 'annul' && !(input.authority in before.state.authorities)) return;
    if (!canBeTyped(before, input)) found.push(`seed ${seed}: ${JSON.stringify(input)}`);
  });
  return found;
}

describe('everything that can be ordered or observed', () => {
  it('can be typed: the whole club night of 178 lines', () => {
    const railroad = indexRailroad(MILL_BRANCH);
    const script = parseScript(railroad, readFileSync('tests/support/club-night.script.jsonl', 'utf8'));
    if (!script.ok) throw new Error(script.says);
    let evening = newEvening(railroad, {}, lookAhead);
    const found: string[] = [];
    for (const timed of script.inputs) {
      if (timed.input.do !== 'open-session' && !canBeTyped(evening, timed.input))
        found.push(`${timed.at}: ${JSON.stringify(timed.input)}`);
      evening = take(evening, timed).evening;
    }
    expect(found).toEqual([]);
  });

  it.each([
    ['the mill branch', indexRailroad(MILL_BRANCH)],
    ['a club railroad', clubRailroad()],
  ])('can be typed on %s, whatever comes', (_, railroad) => {
    expect([1, 2, 3].flatMap((seed) => untyped(railroad, seed, 120))).toEqual([]);
  });
});
