/** The same as a table, for a screen reader: each block with its state, cab and train. */
import { memo } from 'react';
import { blockMarks } from '../../shared-model/railroad/block-marks.ts';
import type { Railroad } from '../../shared-model/railroad/railroad.ts';
import { blockTitle } from '../../shared-model/railroad/where-words.ts';
import { Table } from '../parts/table.tsx';
import type { BoardView } from './board-view.ts';
import { barredWords } from './board-words.ts';

interface BoardTableProps {
  readonly railroad: Railroad;
  readonly view: BoardView;
  readonly caption: string;
}

const COLUMNS = [
  { name: 'Block' },
  { name: 'State' },
  { name: 'Cab' },
  { name: 'Trains' },
  { name: 'Remarks' },
];

function DrawnTable({ railroad, view, caption }: BoardTableProps) {
  const marks = blockMarks(railroad.document);
  const trainsIn = (block: string) =>
    view.trains.filter(({ blocks }) => blocks.some((id) => id === block)).map(({ name }) => name);
  const rows = view.blocks.map((block) => {
    const name = railroad.blocks.get(block.id)?.name ?? block.id;
    const remarks = [
      ...(block.presumed ? ['position presumed'] : []),
      ...(block.tagged ? ['out of service'] : []),
      ...(block.next ? ['next'] : []),
      ...barredWords(railroad, view.barred, block.id),
    ];
    return {
      key: block.id,
      cells: [
        blockTitle(marks.get(block.id) ?? block.id, name),
        block.state,
        block.cabMark,
        trainsIn(block.id).join(', '),
        remarks.join(', '),
      ],
    };
  });
  return (
    <div className="unseen">
      <Table caption={`Blocks (${caption})`} columns={COLUMNS} rows={rows} />
    </div>
  );
}

export const BoardTable = memo(DrawnTable);
