/** A chart with its words, its files, and the table behind it. */
import { useId, useState } from 'react';
import { csvText } from '../../../shared-model/logbook/csv.ts';
import { Act } from '../../parts/act.tsx';
import { fileName, saveFile } from '../../parts/save-file.ts';
import { Table } from '../../parts/table.tsx';
import { chartPng, chartSvgText } from './chart-files.ts';
import type { Drawing } from './drawing.ts';
import { ChartSvg } from './shape-svg.tsx';

export interface ChartRow {
  readonly cells: readonly string[];
  /** Where the replay goes to show it, in seconds of the evening. */
  readonly at: number;
}

export interface ChartTable {
  readonly columns: readonly string[];
  readonly rows: readonly ChartRow[];
}

interface ChartFigureProps {
  readonly evening: { readonly id: string; readonly name: string };
  readonly title: string;
  readonly says: string;
  readonly drawing: Drawing;
  readonly table: ChartTable;
}

/** Rows drawn at first: more of them only when they are asked for. */
const FIRST_ROWS = 200;

function RowsBehind({
  id,
  title,
  table,
}: {
  readonly id: string;
  readonly title: string;
  readonly table: ChartTable;
}) {
  const [all, setAll] = useState(false);
  const shown = all ? table.rows : table.rows.slice(0, FIRST_ROWS);
  return (
    <>
      <Table
        caption={`${title}: ${table.rows.length} rows`}
        columns={[...table.columns, 'replay'].map((name) => ({ name }))}
        rows={shown.map(({ cells, at }, index) => ({
          key: String(index),
          cells: [
            ...cells,
            <a
              key="replay"
              className="logbook-open"
              href={`#/logbook/${encodeURIComponent(id)}/at/${at}`}
              aria-label={`Replay at ${cells.join(', ')}`}
            >
              show
            </a>,
          ],
        }))}
      />
      {shown.length < table.rows.length ? (
        <Act kind="calm" onPress={() => setAll(true)}>
          Show all {table.rows.length}
        </Act>
      ) : null}
    </>
  );
}

export function ChartFigure({ evening, title, says, drawing, table }: ChartFigureProps) {
  const heading = useId();
  const [open, setOpen] = useState(false);
  const name = (ending: string) => fileName(`${evening.name} ${title}`, ending);
  const savePng = async () => {
    const png = await chartPng(drawing);
    if (png !== null) saveFile(name('png'), png);
  };
  const saveCsv = () =>
    saveFile(name('csv'), csvText([table.columns, ...table.rows.map(({ cells }) => cells)]), 'text/csv');
  return (
    <figure className="chart-figure" aria-labelledby={heading}>
      <figcaption>
        <h2 id={heading}>{title}</h2>
        <p>{says}</p>
      </figcaption>
      <ChartSvg drawing={drawing} title={title} says={says} />
      <div className="logbook-acts">
        <Act kind="calm" onPress={() => setOpen(!open)} expanded={open} label={`Table of: ${title}`}>
          {open ? 'Hide the table' : 'Show the table'}
        </Act>
        <Act
          kind="calm"
          onPress={() => saveFile(name('svg'), chartSvgText(drawing, title, says), 'image/svg+xml')}
          label={`Save as SVG: ${title}`}
        >
          SVG
        </Act>
        <Act kind="calm" onPress={() => void savePng()} label={`Save as PNG: ${title}`}>
          PNG
        </Act>
        <Act kind="calm" onPress={saveCsv} label={`Save as CSV: ${title}`}>
          CSV
        </Act>
      </div>
      {open ? <RowsBehind id={evening.id} title={title} table={table} /> : null}
    </figure>
  );
}
