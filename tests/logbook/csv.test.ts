/** CSV (RFC 4180) through an independent parser (csv-parse), with every case of csv-spectrum. */
import { readdirSync, readFileSync } from 'node:fs';
import { parse } from 'csv-parse/sync';
import fc from 'fast-check';
import { expect, test } from 'vitest';
import { csvText, tablesCsv } from '../../shared-model/logbook/csv.ts';

const SPECTRUM = new URL('../../node_modules/csv-spectrum/', import.meta.url);
const CASES = readdirSync(new URL('json/', SPECTRUM)).map((file) => file.replace('.json', ''));

test('csv-spectrum has its twelve cases', () => {
  expect(CASES).toHaveLength(12);
});

test.each(CASES)(
  'csv-spectrum %s: written by us and read by csv-parse, its records are what they were',
  (name) => {
    // One case is a single record, not a list. (Its CSV file has another phone number than its JSON, so the JSON is what counts.)
    const given: unknown = JSON.parse(readFileSync(new URL(`json/${name}.json`, SPECTRUM), 'utf8'));
    const records = [given].flat() as Record<string, string>[];
    const columns = Object.keys(records[0] ?? {});
    const text = csvText([
      columns,
      ...records.map((record) => columns.map((column) => record[column] ?? '')),
    ]);
    expect(parse(text, { columns: true, record_delimiter: '\r\n' })).toEqual(records);
  },
);

test('whatever is in a field comes back as it was', () => {
  const record = fc.array(fc.string({ unit: 'grapheme', maxLength: 8 }), { minLength: 3, maxLength: 3 });
  const hard = fc.constantFrom('"', ',', '\r\n', '\n', '\r', ' a', '""', '');
  fc.assert(
    fc.property(fc.array(fc.tuple(record, hard)), (given) => {
      const records = given.map(([fields, end]) => [...fields, end]);
      expect(parse(csvText(records), { record_delimiter: '\r\n' })).toEqual(records);
    }),
    { seed: 5, numRuns: 200 },
  );
});

test('a record of one empty field is a record', () => {
  expect(parse(csvText([[''], ['a']]))).toEqual([[''], ['a']]);
});

test('tables of any shape are one file, a record a cell, its lines ended with CRLF', () => {
  expect(tablesCsv([{ title: 'T, "1"', columns: ['c', 'd'], rows: [['v', 'w']] }])).toBe(
    'table,row,column,value\r\n"T, ""1""",1,c,v\r\n"T, ""1""",1,d,w\r\n',
  );
});
