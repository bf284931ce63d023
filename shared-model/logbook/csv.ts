/** Comma-separated values as RFC 4180 writes them. */
import type { ReportTable } from './report-types.ts';

/** A field with a comma, a quote or a line's end in it stands in quotes, its quotes doubled; one that begins or ends with a space too. */
const field = (text: string): string =>
  /[",\r\n]|^\s|\s$/.test(text) ? `"${text.replaceAll('"', '""')}"` : text;

/** Records that end with CRLF. A record of one empty field is written as "", since an empty line would be none. */
export function csvText(records: readonly (readonly string[])[]): string {
  return records
    .map((record) => `${record.length === 1 && record[0] === '' ? '""' : record.map(field).join(',')}\r\n`)
    .join('');
}

/** One record a cell: table, row (from 1), column, value; so tables of any shape are one file with the same fields in every record. */
export function tablesCsv(tables: readonly ReportTable[]): string {
  const cells = tables.flatMap(({ title, columns, rows }) =>
    rows.flatMap((row, index) =>
      columns.map((column, at) => [title, String(index + 1), column, row[at] ?? '']),
    ),
  );
  return csvText([['table', 'row', 'column', 'value'], ...cells]);
}
