/** The figures of an evening, the waits first: who ran what, who waited for whom, what was refused. */
import type { ReportTable as Content } from '../../shared-model/logbook/report-types.ts';
import { ReportTable } from './report-table.tsx';

export function EveningFigures({ tables }: { readonly tables: readonly Content[] }) {
  return (
    <section className="logbook-figures" aria-label="Figures">
      {tables.map((table) => (
        <ReportTable key={table.title} table={table} />
      ))}
    </section>
  );
}
