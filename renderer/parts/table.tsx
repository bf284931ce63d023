/** A plain table: a caption, column heads, rows. Figures stand to the right so that they can be compared. */
import type { ReactNode } from 'react';
import './table.css';

interface TableProps {
  readonly caption: string;
  /** Shown above the table unless hidden; a screen reader gets it either way. */
  readonly captionHidden?: boolean;
  readonly columns: readonly { readonly name: string; readonly figures?: boolean }[];
  readonly rows: readonly { readonly key: string; readonly cells: readonly ReactNode[] }[];
}

export function Table({ caption, captionHidden = false, columns, rows }: TableProps) {
  const figures = (column: number) => (columns[column]?.figures === true ? 'figures' : undefined);
  return (
    <table className="table">
      <caption className={captionHidden ? 'unseen' : undefined}>{caption}</caption>
      <thead>
        <tr>
          {columns.map((column, i) => (
            <th key={column.name} scope="col" className={figures(i)}>
              {column.name}
            </th>
          ))}
        </tr>
      </thead>
      <tbody>
        {rows.map((row) => (
          <tr key={row.key}>
            {row.cells.map((cell, i) =>
              i === 0 ? (
                <th key={columns[i]?.name} scope="row" className={figures(i)}>
                  {cell}
                </th>
              ) : (
                <td key={columns[i]?.name} className={figures(i)}>
                  {cell}
                </td>
              ),
            )}
          </tr>
        ))}
      </tbody>
    </table>
  );
}
