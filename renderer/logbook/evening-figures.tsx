/** The train sheet and the figures of an evening, as tables. Times are since the session was opened. */
import { useMemo } from 'react';
import { eveningFigures } from '../../shared-model/logbook/figures.ts';
import { stateAfter } from '../../shared-model/logbook/replay.ts';
import { reportTables } from '../../shared-model/logbook/report-tables.ts';
import { trainSheet } from '../../shared-model/logbook/train-sheet.ts';
import { Table } from '../parts/table.tsx';
import type { EveningRecord } from './use-record.ts';

export function EveningFigures({ record }: { readonly record: EveningRecord }) {
  const tables = useMemo(() => {
    const { railroad, replay } = record;
    const { initial, events } = replay;
    return reportTables(
      railroad,
      stateAfter(replay, events.length),
      eveningFigures(railroad, initial, events),
      trainSheet(railroad, initial, events),
    );
  }, [record]);
  return (
    <section className="logbook-figures" aria-label="Sheet and figures">
      <p>
        Times are since the session was opened. Distances are by blocks reported; running inside limits is
        left out. Who dispatched is not recorded.
      </p>
      {tables.map(({ title, columns, rows }) =>
        rows.length === 0 ? (
          <p key={title}>{title}: none.</p>
        ) : (
          <Table
            key={title}
            caption={title}
            columns={columns.map((name) => ({ name }))}
            rows={rows.map((cells, index) => ({ key: String(index), cells }))}
          />
        ),
      )}
    </section>
  );
}
