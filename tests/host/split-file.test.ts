/** Cutting the entries out of an evening file: whatever the file looks like, it says the same in pieces as whole. */
import fc from 'fast-check';
import { expect, test } from 'vitest';
import { bytesOfText, type FileBytes } from '../../electron/host/carrying/file-bytes.ts';
import { splitFile } from '../../electron/host/carrying/split-file.ts';
import { parseJson } from '../../shared-model/malformed.ts';

function split(text: string) {
  const pieces = splitFile(bytesOfText(text) satisfies FileBytes);
  for (;;) {
    const piece = pieces.next();
    if (piece.done === true) return piece.value;
  }
}

const value = fc.jsonValue({ maxDepth: 3 });
const fields = fc.dictionary(
  fc.string({ maxLength: 6 }).filter((key) => key !== 'entries'),
  value,
  {
    maxKeys: 3,
  },
);
const file = fc
  .tuple(fields, fc.array(value, { maxLength: 5 }), fields, fc.constantFrom(0, 2, '\t'))
  .map(([before, entries, behind, indent]) => ({
    entries,
    text: JSON.stringify({ ...before, entries, ...behind }, null, indent),
  }));

test('entries and rest together are the file, however it is laid out', () => {
  fc.assert(
    fc.property(file, ({ text, entries }) => {
      const { rest, count, entry } = split(text);
      expect(Array.from({ length: count }, (_, index) => JSON.parse(entry(index)) as unknown)).toEqual(
        JSON.parse(JSON.stringify(entries)),
      );
      expect({ ...(JSON.parse(rest) as object), entries: [] }).toEqual({
        ...(JSON.parse(text) as object),
        entries: [],
      });
    }),
    { seed: 5, numRuns: 300 },
  );
});

test('what breaks off is said to break off where the whole file does', () => {
  fc.assert(
    fc.property(file, fc.nat(), ({ text }, cut) => {
      const broken = text.slice(0, cut % text.length);
      const { rest, placeOf } = split(broken);
      const whole = parseJson(broken);
      const pieces = parseJson(rest, placeOf);
      expect(pieces.ok).toBe(false);
      if (!whole.ok && !pieces.ok && /end of JSON/.test(pieces.malformed.says))
        expect(pieces.malformed.path).toBe(whole.malformed.path);
    }),
    { seed: 5, numRuns: 300 },
  );
});

test('two commas in a row, and one behind the last entry, leave an entry that is none', () => {
  const entries = (text: string) => {
    const { count, entry } = split(text);
    return Array.from({ length: count }, (_, index) => entry(index));
  };
  expect(entries('{"entries":[1,,2]}')).toEqual(['1', '', '2']);
  expect(entries('{"entries":[1,]}')).toEqual(['1', '']);
  expect(entries('{"entries":[ ]}')).toEqual([]);
});
