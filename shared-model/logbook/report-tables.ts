/** Everything that is printed of an evening, as tables of words: what text, CSV, HTML and the screen show alike. */
import type { Railroad } from '../railroad/railroad.ts';
import { figureTables } from './figure-tables.ts';
import type { EveningFigures } from './figure-types.ts';
import { type Names, namesOf } from './names.ts';
import type { ReportStyle, ReportTable } from './report-types.ts';
import { sheetTables } from './sheet-tables.ts';
import type { TrainSheet } from './train-sheet.ts';

/** What things are called in the report of an evening. */
export const reportNames = (railroad: Railroad, sheet: TrainSheet, { lengths }: ReportStyle): Names =>
  namesOf(railroad, new Map(sheet.trains.map(({ id, name }) => [id, name])), lengths);

/** The sheet, and the figures. */
export function reportTables(
  railroad: Railroad,
  figures: EveningFigures,
  sheet: TrainSheet,
  style: ReportStyle,
): { readonly sheet: readonly ReportTable[]; readonly figures: readonly ReportTable[] } {
  const names = reportNames(railroad, sheet, style);
  return {
    sheet: sheetTables(sheet, names, style),
    figures: figureTables(figures, names, style),
  };
}
