/** A table of a report, and how a report is written. */
import type { Lengths } from './names.ts';
import type { ClockText } from './time-text.ts';

export interface ReportTable {
  readonly title: string;
  readonly columns: readonly string[];
  readonly rows: readonly (readonly string[])[];
  /** What has to be known to read it. */
  readonly note?: string;
}

/** How a report is written. */
export interface ReportStyle {
  readonly lengths: Lengths;
  readonly clock: ClockText;
  /** Time of one throw: the hands' load follows from it. */
  readonly throwSeconds: number;
}

const FIGURE = /^[\d:.,]+( %)?$/;

/** Which columns have figures or times alone: they stand to the right, so that they can be compared. */
export const figureColumns = ({ columns, rows }: Pick<ReportTable, 'columns' | 'rows'>): readonly boolean[] =>
  columns.map((_, column) => rows.every((row) => row[column] === '' || FIGURE.test(row[column] ?? '')));
