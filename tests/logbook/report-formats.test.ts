/** The report's CSV through an independent parser (csv-parse), and its page with nothing of an evening taken for markup. */
import { parse } from 'csv-parse/sync';
import { expect, test } from 'vitest';
import { reportHtml, tablesCsv, tableText } from '../../electron/command-line/report-formats.ts';

// The cases of csv-spectrum by name: comma in quotes, empty, escaped quotes, JSON, newlines, quotes and newlines, utf8.
const HARD = ['a, b', '', 'say "ha"', '{"type": "Point"}', 'one\ntwo', '"a"\r\n"b"', 'ʤ'] as const;
const table = { title: 'Hard, "words"', columns: ['cell'], rows: HARD.map((cell) => [cell]) };

test('every cell comes back through csv-parse as it was', () => {
  const records = parse(tablesCsv([table]), { columns: true });
  expect(records).toEqual(
    HARD.map((value, index) => ({ table: table.title, row: String(index + 1), column: 'cell', value })),
  );
});

test('records end with CRLF', () => {
  expect(tablesCsv([{ title: 'T', columns: ['c'], rows: [['v']] }])).toBe(
    'table,row,column,value\r\nT,1,c,v\r\n',
  );
});

test('what was typed into an evening is never markup', () => {
  const page = reportHtml('<b>&', [`"it's"`], [{ title: 'T', columns: ['<i>'], rows: [['<script>']] }]);
  expect(page).toContain('<h1>&lt;b&gt;&amp;</h1>');
  expect(page).toContain('<p>&quot;it&#39;s&quot;</p>');
  expect(page).not.toMatch(/<(b|i|script)>/);
});

test('columns of text stand under each other; an empty table says none', () => {
  expect(tableText({ title: 'T', columns: ['long', 'b'], rows: [['x', 'y']] })).toBe('T\nlong  b\nx     y');
  expect(tableText({ title: 'T', columns: ['a'], rows: [] })).toBe('T: none');
});
