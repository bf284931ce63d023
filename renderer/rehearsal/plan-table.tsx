/** The chart as tables: every stay with its times, in the order in which the blocks are had; and what hands and voice do. */
import { clockText } from '../../shared-model/planning/chart/chart-ticks.ts';
import type { Railroad } from '../../shared-model/railroad/railroad.ts';
import { Table } from '../parts/table.tsx';
import { workKey } from './chart-items.ts';
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
  const works = [
    ...seen.timing.hands.map((work) => ({
      ...work,
      key: workKey('hands', work.of),
      by: 'hands',
      what: plan.answer.throws
        .slice(work.of, work.of + 1)
        .map(throwWords)
        .join(''),
    })),
    ...seen.timing.voice.map((work) => ({
      ...work,
      key: workKey('voice', work.of),
      by: 'voice',
      what: `words for ${trainWords(railroad, plan.answer.moves[work.of]?.train ?? '')}`,
    })),
  ].sort((one, other) => one.at - other.at);
  return (
    <>
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
      <Table
        caption={`${plan.name}: what the hands and the voice do`}
        columns={[
          { name: 'from', figures: true },
          { name: 'until', figures: true },
          { name: 'by' },
          { name: 'what' },
        ]}
        rows={works.map(({ key, at, till, by, what }) => ({
          key,
          cells: [clockText(at), clockText(till), by, what],
        }))}
      />
    </>
  );
}
