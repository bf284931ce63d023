/** An evening's tables as text and as an HTML page of its own. */
import type { ReportTable } from '../../shared-model/logbook/report-types.ts';

/** Columns as wide as their widest cell; an empty table says so. */
export function tableText({ title, columns, rows, note }: ReportTable): string {
  if (rows.length === 0) return `${title}: none`;
  const widths = columns.map((column, index) =>
    Math.max(column.length, ...rows.map((row) => row[index]?.length ?? 0)),
  );
  const line = (cells: readonly string[]): string =>
    cells
      .map((cell, index) => cell.padEnd(widths[index] ?? 0))
      .join('  ')
      .trimEnd();
  return [title, line(columns), ...rows.map(line), ...(note === undefined ? [] : [note])].join('\n');
}

const ESCAPES: Readonly<Record<string, string>> = {
  '&': '&amp;',
  '<': '&lt;',
  '>': '&gt;',
  '"': '&quot;',
  "'": '&#39;',
};
const escaped = (text: string): string => text.replace(/[&<>"']/g, (letter) => ESCAPES[letter] ?? letter);

const noteHtml = ({ note }: ReportTable): string => (note === undefined ? '' : `<p>${escaped(note)}</p>`);

const tableHtml = ({ title, columns, rows }: ReportTable): string =>
  rows.length === 0
    ? `<h2>${escaped(title)}</h2><p>None.</p>`
    : `<table><caption>${escaped(title)}</caption><thead><tr>${columns
        .map((column) => `<th scope="col">${escaped(column)}</th>`)
        .join('')}</tr></thead><tbody>${rows
        .map((row) => `<tr>${row.map((cell) => `<td>${escaped(cell)}</td>`).join('')}</tr>`)
        .join('')}</tbody></table>`;

const STYLE =
  'body{font:11pt sans-serif;margin:15mm}table{border-collapse:collapse;margin:1em 0}caption,h2{font:bold 12pt sans-serif;text-align:left}th,td{border:1px solid;padding:2pt 6pt;text-align:left;vertical-align:top}tr{break-inside:avoid}';

/** A page that needs nothing else, to be printed. */
export function reportHtml(name: string, lines: readonly string[], tables: readonly ReportTable[]): string {
  return [
    '<!doctype html>',
    `<html lang="en"><head><meta charset="utf-8"><title>${escaped(name)}</title><style>${STYLE}</style></head><body>`,
    `<h1>${escaped(name)}</h1>`,
    ...lines.map((line) => `<p>${escaped(line)}</p>`),
    ...tables.map((table) => `${tableHtml(table)}${table.rows.length === 0 ? '' : noteHtml(table)}`),
    '</body></html>',
  ].join('\n');
}
