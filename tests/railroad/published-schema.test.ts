/** The published JSON Schema, read by a validator of its own (Ajv, JSON Schema draft 2020-12). */
import { readFileSync } from 'node:fs';
import { Ajv2020 } from 'ajv/dist/2020.js';
import fc from 'fast-check';
import { expect, test } from 'vitest';
import { makeRailroadSchema } from '../../build/railroad-schema.ts';
import { parseRailroadText } from '../../shared-model/railroad/parse-railroad.ts';
import example from '../support/passing-siding.railroad.json' with { type: 'json' };
import { anyRailroad } from '../support/random-railroad.ts';

const published = readFileSync(new URL('../../docs/railroad.schema.json', import.meta.url), 'utf8');
const isValid = new Ajv2020({ strict: false }).compile(JSON.parse(published));

test('the schema in docs/ is the one that the parser has', () => {
  expect(published).toBe(makeRailroadSchema());
});

test('the example and random railroads are valid by it', () => {
  expect(isValid(example)).toBe(true);
  fc.assert(
    fc.property(anyRailroad, (document) => {
      expect(isValid(JSON.parse(JSON.stringify(document)))).toBe(true);
    }),
    { numRuns: 50, seed: 1 },
  );
});

/** Every value of a document: its path. */
function paths(
  value: unknown,
  at: readonly (string | number)[] = [],
): readonly (readonly (string | number)[])[] {
  if (typeof value !== 'object' || value === null) return [at];
  const inner = Array.isArray(value)
    ? value.map((item, index) => [index, item] as const)
    : Object.entries(value);
  return [at, ...inner.flatMap(([key, item]) => paths(item, [...at, key]))];
}

const PLACES = paths(example).filter((path) => path.length > 0);

test('whatever value of the example is exchanged, the schema and the parser agree', () => {
  let refused = 0;
  const anyValue = fc.constantFrom(null, true, -1, 0, 2.5, '', 'off', 'T1', [], {}, undefined);
  fc.assert(
    fc.property(fc.constantFrom(...PLACES), anyValue, (path, value) => {
      const document = structuredClone(example) as unknown as Record<string | number, unknown>;
      let holder = document;
      for (const step of path.slice(0, -1)) holder = holder[step] as Record<string | number, unknown>;
      holder[path.at(-1) ?? ''] = value;
      const text = JSON.stringify(document);
      const parsed = parseRailroadText(text);
      // What JSON Schema cannot say is left to the parser alone.
      if (!parsed.ok && /used once|two different nodes|other than "off"/.test(parsed.says)) return;
      if (!parsed.ok) refused += 1;
      expect(isValid(JSON.parse(text))).toBe(parsed.ok);
    }),
    { numRuns: 1500, seed: 2 },
  );
  expect(refused).toBeGreaterThan(500);
});
