/** Planned and happened side by side, for a plan that was made real: who came into each block when, how late, and in which order. */
import { useEffect } from 'react';
import { clockText } from '../../shared-model/planning/chart/chart-ticks.ts';
import { comparedWith, type Entered, enteredIn } from '../../shared-model/planning/rehearsal/happened.ts';
import { useConsole, useConsoleStore } from '../console/use-console.tsx';
import { useKnownOf } from '../console/use-known-of.ts';
import { MOST_READ, throughEntries } from '../logbook/through-entries.ts';
import { Table } from '../parts/table.tsx';
import type { MadeReal } from './kept-rehearsal.ts';
import type { Rehearsal } from './use-rehearsal.ts';
import { blockName, trainWords } from './words.ts';

interface Happening {
  readonly entered: readonly Entered[];
  /** False where more happened than is looked at. */
  readonly whole: boolean;
}

type Reading =
  | { readonly is: 'failed'; readonly says: string }
  | { readonly is: 'read'; readonly happening: Happening };

/** Who came into which block since a plan was made real, read again as more is said; null while that is read first. */
function useHappening({ evening, entry }: MadeReal): Reading | null {
  const { connection } = useConsoleStore();
  const entries = useConsole((state) => (state.evening?.id === evening ? state.evening.state.entries : 0));
  const [reading, setReading] = useKnownOf<Reading>(`${evening} ${entry}`);
  // biome-ignore lint/correctness/useExhaustiveDependencies: what was said since has to be read
  useEffect(() => {
    let wanted = true;
    const entered: Entered[] = [];
    void throughEntries(connection, evening, Math.max(1, entry), (before, events) => {
      entered.push(...enteredIn(before, events, entry));
      return wanted;
    }).then((answer) => {
      if (!wanted || answer === null) return;
      setReading(
        answer.ok
          ? { is: 'read', happening: { entered, whole: answer.value.whole } }
          : { is: 'failed', says: answer.problem.says },
      );
    });
    return () => {
      wanted = false;
    };
  }, [connection, evening, entry, entries, setReading]);
  return reading;
}

function Happened({ rehearsal, made }: { readonly rehearsal: Rehearsal; readonly made: MadeReal }) {
  const reading = useHappening(made);
  const { origin, plans, seeing } = rehearsal;
  const plan = plans[made.plan];
  const seen = plan === undefined ? null : seeing(plan);
  if (reading?.is === 'failed') return <p role="alert">The evening cannot be read: {reading.says}</p>;
  if (reading === null || seen === null) return <p role="status">Reading the evening.</p>;
  const { entered, whole } = reading.happening;
  const rows = comparedWith(seen.timing.blocks, entered, made.began);
  const came = rows.filter(({ happened }) => happened !== null);
  const latest = Math.max(0, ...came.map(({ late }) => late ?? 0));
  const inOrder = rows.every(({ outOfOrder }) => !outOfOrder);
  return (
    <>
      <p role="status">
        {came.length} of {rows.length} arrivals have happened
        {came.length === 0
          ? '.'
          : `; ${latest < 1 ? 'none was late' : `the latest was ${clockText(latest)} behind the plan`}. ${inOrder ? 'Every block was had in the order planned.' : 'Some blocks were had in another order than planned.'}`}
        {whole
          ? ''
          : ` Looked at were the ${MOST_READ.toLocaleString('en')} entries after it was made real; more was said since.`}
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
