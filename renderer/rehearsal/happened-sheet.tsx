/** Planned and happened side by side, for a plan that was made real: who came into each block when, how late, and in which order. */
import { clockText } from '../../shared-model/planning/chart/chart-ticks.ts';
import { comparedWith, enteredIn } from '../../shared-model/planning/rehearsal/happened.ts';
import { useRecord } from '../logbook/use-record.ts';
import { Table } from '../parts/table.tsx';
import type { MadeReal } from './kept-rehearsal.ts';
import type { Rehearsal } from './use-rehearsal.ts';
import { blockName, trainWords } from './words.ts';

function Happened({ rehearsal, made }: { readonly rehearsal: Rehearsal; readonly made: MadeReal }) {
  const reading = useRecord(made.evening);
  const { origin, plans, seeing } = rehearsal;
  const plan = plans[made.plan];
  const seen = plan === undefined ? null : seeing(plan);
  if (reading.is === 'failed') return <p role="alert">The evening cannot be read: {reading.says}</p>;
  if (reading.is === 'reading' || seen === null) return <p role="status">Reading the evening.</p>;
  const { replay } = reading.record;
  const rows = comparedWith(
    seen.timing.blocks,
    enteredIn(replay.initial, replay.events, made.entry),
    made.began,
  );
  const came = rows.filter(({ happened }) => happened !== null);
  const latest = Math.max(0, ...came.map(({ late }) => late ?? 0));
  const inOrder = rows.every(({ outOfOrder }) => !outOfOrder);
  return (
    <>
      <p role="status">
        {came.length} of {rows.length} arrivals have happened
        {came.length === 0
          ? '.'
          : `; the latest was ${clockText(latest)} behind the plan. ${inOrder ? 'Every block was had in the order planned.' : 'Some blocks were had in another order than planned.'}`}
      </p>
      <Table
        caption="Planned and happened"
        columns={[
          { name: 'block' },
          { name: 'train' },
          { name: 'planned', figures: true },
          { name: 'happened', figures: true },
          { name: 'late', figures: true },
          { name: 'order' },
        ]}
        rows={rows.map((row, index) => ({
          key: String(index),
          cells: [
            blockName(origin.railroad, row.block),
            trainWords(origin.railroad, row.train),
            clockText(row.planned),
            row.happened === null ? 'not yet' : clockText(row.happened),
            row.late === null ? '' : `${row.late < 0 ? '' : '+'}${clockText(row.late)}`,
            row.happened === null ? '' : row.outOfOrder ? 'not as planned' : 'as planned',
          ],
        }))}
      />
    </>
  );
}

export function HappenedSheet({ rehearsal }: { readonly rehearsal: Rehearsal }) {
  const { madeReal } = rehearsal;
  if (madeReal === null)
    return <p>Nothing of this rehearsal was made real yet, so that there is nothing to hold it against.</p>;
  return <Happened rehearsal={rehearsal} made={madeReal} />;
}
