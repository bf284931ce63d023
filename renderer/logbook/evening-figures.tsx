/** The train sheet and the figures of an evening, as tables. */
import { useMemo } from 'react';
import { eveningFigures } from '../../shared-model/logbook/figures.ts';
import { reportTables } from '../../shared-model/logbook/report-tables.ts';
import { trainSheet } from '../../shared-model/logbook/train-sheet.ts';
import { useConsole } from '../console/use-console.tsx';
import { Table } from '../parts/table.tsx';
import { momentText } from './moment-text.ts';
import type { EveningRecord } from './use-record.ts';

export function EveningFigures({ record }: { readonly record: EveningRecord }) {
  const { lengths, throwSeconds } = useConsole((state) => state.settings);
  const tables = useMemo(() => {
    const { railroad, replay, card } = record;
    const { initial, events } = replay;
    const clock = (at: number) => momentText(card.openedAt, at);
    const figures = eveningFigures(railroad, initial, events);
    const sheet = trainSheet(railroad, initial, events);
    const made = reportTables(railroad, figures, sheet, { lengths, throwSeconds, clock });
    return [...made.sheet, ...made.figures];
  }, [record, lengths, throwSeconds]);
  return (
    <section className="logbook-figures" aria-label="Sheet and figures">
      {tables.map(({ title, columns, rows, note }) =>
        rows.length === 0 ? (
          <p key={title}>{title}: none.</p>
        ) : (
          <div key={title}>
            <Table
              caption={title}
              columns={columns.map((name) => ({ name }))}
              rows={rows.map((cells, index) => ({ key: String(index), cells }))}
            />
            {note === undefined ? null : <p className="quiet">{note}</p>}
          </div>
        ),
      )}
    </section>
  );
}
