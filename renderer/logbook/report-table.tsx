/** A table of a report on the screen and on paper; a very long one shows its beginning first. */
import { useEffect, useState } from 'react';
import { flushSync } from 'react-dom';
import { type ReportTable as Content, figureColumns } from '../../shared-model/logbook/report-types.ts';
import { Act } from '../parts/act.tsx';
import { Table } from '../parts/table.tsx';

const FIRST_ROWS = 500;
/** Drawn in a moment; a hundred thousand would hold up the page. */
const FURTHER_ROWS = 2000;
/** More rows of one table are no sheet that anybody prints. */
const PRINTED_ROWS = 5000;

export function ReportTable({ table: { title, columns, rows, note } }: { readonly table: Content }) {
  const [most, setMost] = useState(FIRST_ROWS);
  const [isPrinted, setIsPrinted] = useState(false);
  useEffect(() => {
    // What is printed is the whole of it, whatever of it was shown; the paper does not wait for a later drawing.
    const before = () => flushSync(() => setIsPrinted(true));
    const after = () => setIsPrinted(false);
    window.addEventListener('beforeprint', before);
    window.addEventListener('afterprint', after);
    return () => {
      window.removeEventListener('beforeprint', before);
      window.removeEventListener('afterprint', after);
    };
  }, []);
  const shown = rows.slice(0, isPrinted ? Math.max(most, PRINTED_ROWS) : most);
  const further = Math.min(FURTHER_ROWS, rows.length - shown.length);
  const figures = figureColumns({ columns, rows: shown });
  if (rows.length === 0) return <p>{title}: none.</p>;
  return (
    <div className="report-table">
      <Table
        caption={title}
        columns={columns.map((name, column) => ({ name, figures: figures[column] === true }))}
        rows={shown.map((cells, index) => ({ key: String(index), cells }))}
      />
      {note === undefined ? null : <p className="quiet fine">{note}</p>}
      {shown.length < rows.length ? (
        <p className="on-paper">
          {shown.length.toLocaleString('en')} of {rows.length.toLocaleString('en')} rows; the CSV and `cabward
          report` have all.
        </p>
      ) : null}
      {shown.length < rows.length ? (
        <Act
          kind="calm"
          onPress={() => setMost(shown.length + FURTHER_ROWS)}
          label={`Show ${further} more rows of ${title}`}
        >
          Show {further.toLocaleString('en')} more of {rows.length.toLocaleString('en')}
        </Act>
      ) : null}
    </div>
  );
}
