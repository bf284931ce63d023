/** The published example: two cabs on one supply meet at the siding, one asks for the block wired to a third throttle. */
import { readFileSync } from 'node:fs';
import { describe, expect, it } from 'vitest';
import { indexRailroad } from '../../shared-model/railroad/railroad.ts';
import { newEvening, take } from '../../shared-model/session/evening.ts';
import { parseScript } from '../../shared-model/session/script.ts';
import { passingSidingExample } from '../support/example.ts';
import expected from '../support/meet.expected.json' with { type: 'json' };

describe('the meet at the passing siding', () => {
  const railroad = indexRailroad(passingSidingExample);
  const parsed = parseScript(railroad, readFileSync('tests/support/meet.script.jsonl', 'utf8'));
  if (!parsed.ok) throw new Error(parsed.says);
  let evening = newEvening(railroad);
  const events = parsed.inputs.map((timed) => {
    const taken = take(evening, timed);
    evening = taken.evening;
    return taken.event;
  });

  it('gives every outcome with its reasons and what they are about', () => {
    const outcomes = events.map(({ at, outcome, reasons }) => [
      at,
      outcome,
      ...reasons.flatMap(({ code, about }) => (about.length === 0 ? [code] : [code, about])),
    ]);
    expect(outcomes).toEqual(expected.outcomes);
  });

  it('names the authority and the throws of the grant', () => {
    const granted = events.find(({ at }) => at === 11);
    expect(granted?.authority).toBe(expected.authorityAt11);
    expect(granted?.throws?.map(({ kind, id, to, block }) => [kind, id, to, block])).toEqual(
      expected.throwsAt11,
    );
  });

  it('leaves blocks and selectors as they are told', () => {
    const blocks = Object.entries(evening.state.blocks).map(([id, { state, cab, train }]) => [
      id,
      [state, cab, train],
    ]);
    const selectors = Object.entries(evening.state.selectors).map(([id, { position }]) => [id, position]);
    expect(Object.fromEntries(blocks)).toEqual(expected.blocks);
    expect(Object.fromEntries(selectors)).toEqual(expected.selectors);
  });
});
