/** The chart as a table: every stay with its times, in the order in which the blocks are had. */
import { clockText } from '../../shared-model/planning/chart/chart-ticks.ts';
import type { Railroad } from '../../shared-model/railroad/railroad.ts';
import { Table } from '../parts/table.tsx';
import type { PlanKept, PlanSeen } from './made-plan.ts';
import { blockName, throwWords, trainWords } from './words.ts';

interface PlanTableProps {
  readonly railroad: Railroad;
  readonly plan: PlanKept;
  readonly seen: PlanSeen;
}

const time = (seconds: number | null, none: string): string => (seconds === null ? none : clockText(seconds));

export function PlanTable({ railroad, plan, seen }: PlanTableProps) {
  const stays = [...seen.timing.blocks].sort((one, other) => (one.headIn ?? -1) - (other.headIn ?? -1));
  return (
    <Table
      caption={`${plan.name}: who is in which block when`}
      columns={[
        { name: 'block' },
        { name: 'train' },
        { name: 'blocked from', figures: true },
        { name: 'head in', figures: true },
        { name: 'tail out', figures: true },
        { name: 'given back', figures: true },
        { name: 'throws' },
      ]}
      rows={stays.map((stay, index) => ({
        key: String(index),
        cells: [
          blockName(railroad, stay.block),
          trainWords(railroad, stay.train),
          time(stay.from, 'stands there'),
          time(stay.headIn, 'stands there'),
          time(stay.tailOut, 'stays'),
          time(stay.till, 'stays'),
          stay.throws
            .flatMap((place) => plan.answer.throws[place] ?? [])
            .map(throwWords)
            .join(', '),
        ],
      }))}
    />
  );
}
