/**
 * The engine against a second implementation, written from the design alone: small railroads drawn by hand and random ones, scripts by
 * a driver that looks at the second implementation's state. A difference is shown with its shortest script.
 */
import { readFileSync } from 'node:fs';
import { describe, expect, it } from 'vitest';
import type { RailroadDocument } from '../../shared-model/railroad/document.ts';
import { passingSidingExample } from '../support/example.ts';
import expected from '../support/meet.expected.json' with { type: 'json' };
import { randomRailroad } from '../support/random-railroad.ts';
import { minimized, randomScript } from './differential.ts';
import { HAND_RAILROADS } from './hand-railroads.ts';
import { rehearse } from './independent/rehearse.ts';
import { type Line, worldOf } from './independent/state.ts';

const LINES = 50;
const HAND_SEEDS = 24;
const RANDOM_SEEDS = 80;

/** The shortest script on which the two differ, of one made by chance; none when they agree. */
function differenceOn(document: RailroadDocument, seed: number): readonly object[] {
  const found = minimized(document, randomScript(worldOf(document), seed, LINES));
  return found === null ? [] : [{ seed, ...found }];
}

const seedsTo = (count: number): number[] => Array.from({ length: count }, (_, index) => index + 1);

describe('the second implementation', () => {
  it('gives the published answers to the meet at the passing siding', () => {
    const script = readFileSync('tests/support/meet.script.jsonl', 'utf8')
      .split('\n')
      .filter((line) => line !== '' && !line.startsWith('#'))
      .map((line): Line => JSON.parse(line));
    const { entries, blocks, selectors } = rehearse(worldOf(passingSidingExample), script);
    const told = entries.map(({ at, outcome, reasons }) => [
      at,
      outcome,
      ...reasons.flatMap(({ code, about }) => (about.length === 0 ? [code] : [code, about])),
    ]);
    expect(told).toEqual(expected.outcomes);
    const granted = entries.find(({ at }) => at === 11);
    expect(granted?.throws?.map(({ kind, id, to, block }) => [kind, id, to, block])).toEqual(
      expected.throwsAt11,
    );
    expect(granted?.authority).toBe(expected.authorityAt11);
    const states = Object.entries(blocks).map(([id, { state, cab, train }]) => [id, [state, cab, train]]);
    expect(Object.fromEntries(states)).toEqual(expected.blocks);
    expect(selectors).toEqual(expected.selectors);
  });
});

describe('the engine and the second implementation say the same, line by line', () => {
  it.each(HAND_RAILROADS.map((document) => [document.name, document] as const))(
    'on %s',
    (_name, document) => {
      expect(seedsTo(HAND_SEEDS).flatMap((seed) => differenceOn(document, seed))).toEqual([]);
    },
  );

  it('on random railroads', () => {
    const found = seedsTo(RANDOM_SEEDS).flatMap((seed) =>
      differenceOn(randomRailroad(seed, 3 + (seed % 12)), seed),
    );
    expect(found).toEqual([]);
  });
});
