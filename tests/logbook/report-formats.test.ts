/** The report as text, and as a page with nothing of an evening taken for markup. */
import { expect, test } from 'vitest';
import { reportHtml, tableText } from '../../electron/command-line/report-formats.ts';

test('what was typed into an evening is never markup', () => {
  const page = reportHtml(
    '<b>&',
    [`"it's"`],
    [{ title: 'T', columns: ['<i>'], rows: [['<script>']], note: '<u>' }],
  );
  expect(page).toContain('<h1>&lt;b&gt;&amp;</h1>');
  expect(page).toContain('<p>&quot;it&#39;s&quot;</p>');
  expect(page).not.toMatch(/<(b|i|u|script)>/);
});

test('columns of text stand under each other, the note below; an empty table says none', () => {
  const table = { title: 'T', columns: ['long', 'b'], rows: [['x', 'y']] };
  expect(tableText(table)).toBe('T\nlong  b\nx     y');
  expect(tableText({ ...table, note: 'N' })).toBe('T\nlong  b\nx     y\nN');
  expect(tableText({ title: 'T', columns: ['a'], rows: [] })).toBe('T: none');
});

test('a table of more rows than a call takes arguments is written whole', () => {
  const rows = Array.from({ length: 150_000 }, (_, index) => [String(index)]);
  expect(tableText({ title: 'T', columns: ['a'], rows }).endsWith('\n149999')).toBe(true);
});

test('figures and times stand to the right on the page; words, and what is empty beside them, do not', () => {
  const rows = [
    ['No. 7', '0:01:05', '12 %', ''],
    ['No. 12', '', '3 %', 'x'],
  ];
  const page = reportHtml('A', [], [{ title: 'T', columns: ['train', 'time', 'share', 'why'], rows }]);
  expect(page).toContain('<td>No. 7</td><td class="f">0:01:05</td><td class="f">12 %</td><td></td>');
  expect(page).toContain('<th scope="col">why</th>');
});
