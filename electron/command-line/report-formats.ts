/** An evening's tables as text and as an HTML page of its own. */
import { figureColumns, type ReportTable } from '../../shared-model/logbook/report-types.ts';

/** Columns as wide as their widest cell; an empty table says so. */
export function tableText({ title, columns, rows, note }: ReportTable): string {
  if (rows.length === 0) return `${title}: none`;
  // Not Math.max over all rows at once: a long evening has more of them than a call takes arguments.
  const widths = columns.map((column, index) =>
    rows.reduce((widest, row) => Math.max(widest, row[index]?.length ?? 0), column.length),
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

function tableHtml({ title, columns, rows }: ReportTable): string {
  if (rows.length === 0) return `<h2>${escaped(title)}</h2><p>None.</p>`;
  const figures = figureColumns({ columns, rows });
  const mark = (column: number) => (figures[column] === true ? ' class="f"' : '');
  const heads = columns.map((name, column) => `<th scope="col"${mark(column)}>${escaped(name)}</th>`);
  const lines = rows.map(
    (row) => `<tr>${row.map((cell, column) => `<td${mark(column)}>${escaped(cell)}</td>`).join('')}</tr>`,
  );
  return `<table><caption>${escaped(title)}</caption><thead><tr>${heads.join('')}</tr></thead><tbody>${lines.join('')}</tbody></table>`;
}

/** Black on white, no wider than a sheet of paper; heads again on each page. */
const STYLE = [
  ':root{color-scheme:light;background:#fff;color:#000}',
  'body{font:10pt sans-serif;margin:10mm}',
  'table{border-collapse:collapse;margin:1em 0;max-width:100%}',
  'caption,h2{font:bold 11pt sans-serif;text-align:left;break-after:avoid}',
  'th,td{border:1px solid;padding:1.5pt 3pt;text-align:left;vertical-align:top;overflow-wrap:break-word}',
  'td:first-child,.f{white-space:nowrap}th.f{white-space:normal}.f{text-align:right;font-variant-numeric:tabular-nums}',
  'tr{break-inside:avoid}thead{break-after:avoid}tbody tr:first-child{break-before:avoid}p{overflow-wrap:anywhere}',
  '@page{margin:12mm}@media print{body{margin:0 1px;font-size:8.5pt}}',
].join('');

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
