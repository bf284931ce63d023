/** The figures of an evening as tables of words. */
import type { CodeCount, EveningFigures, RunFigures } from './figure-types.ts';
import { handsLoads } from './figures.ts';
import type { Names } from './names.ts';
import type { ReportStyle, ReportTable } from './report-types.ts';
import { durationText } from './time-text.ts';

/** "block-owned 3, turnout-locked 1". */
const codeWords = (codes: readonly CodeCount[]): string =>
  codes.map(({ code, count }) => `${code} ${count}`).join(', ');

const runTable = (
  title: string,
  runs: readonly RunFigures[],
  name: (id: string) => string,
  { distance, distanceUnit }: Names,
): ReportTable => ({
  title,
  columns: [
    'name',
    'time',
    `${distanceUnit} by blocks reported`,
    'moves',
    'hand-offs',
    'waited',
    'overrides',
    'refused',
    'reasons',
    'alarms',
    'alarms by code',
  ],
  rows: runs.map((run) => [
    name(run.id),
    durationText(run.seconds),
    distance(run.distanceMm),
    String(run.moves),
    String(run.handOffs),
    durationText(run.waitSeconds),
    String(run.overrides),
    String(run.refusals),
    codeWords(run.refusalCodes),
    String(run.alarms),
    codeWords(run.alarmCodes),
  ]),
});

const codeTable = (title: string, codes: readonly CodeCount[]): ReportTable => ({
  title,
  columns: ['code', 'count'],
  rows: codes.map(({ code, count }) => [code, String(count)]),
});

const blockTable = (figures: EveningFigures, names: Names): ReportTable => ({
  title: 'Blocks',
  columns: [
    'block',
    'waiting caused',
    'share of waiting',
    'occupied',
    'held',
    `${names.distanceUnit} run in it`,
    'moves',
    'hand-offs',
    'throws',
    'refusals',
    'alarms',
  ],
  rows: figures.blocks.map((block) => [
    names.thing(block.id),
    durationText(block.waitSeconds),
    `${(block.waitShare * 100).toFixed(0)} %`,
    durationText(block.occupiedSeconds),
    durationText(block.heldSeconds),
    names.distance(block.distanceMm),
    String(block.moves),
    String(block.handOffs),
    String(block.throws),
    String(block.refusals),
    String(block.alarms),
  ]),
});

/** The minutes with a throw in them; the others have none. */
function throwTable({ throwsPerMinute }: EveningFigures, throwSeconds: number): ReportTable {
  const loads = handsLoads(throwsPerMinute, throwSeconds);
  return {
    title: 'Throws per minute',
    columns: ['minute', 'throws', 'load of the hands'],
    rows: throwsPerMinute.flatMap((count, minute) =>
      count === 0 ? [] : [[String(minute + 1), String(count), `${loads[minute] ?? 0} %`]],
    ),
    note: `A throw is counted as ${throwSeconds} s of the hands. Minutes are counted from the opening; those without a throw are left out.`,
  };
}

export function figureTables(
  figures: EveningFigures,
  names: Names,
  { clock, throwSeconds }: ReportStyle,
): readonly ReportTable[] {
  return [
    {
      title: 'Waits',
      columns: ['train', 'person', 'cab', 'waited for', 'held by', 'time', 'longest on end', 'from'],
      rows: figures.waits.map((wait) => [
        names.train(wait.train),
        wait.person ?? '',
        names.cab(wait.cab),
        names.thing(wait.thing),
        names.train(wait.owner),
        durationText(wait.seconds),
        durationText(wait.longest.seconds),
        clock(wait.longest.from),
      ]),
      note: 'Counted from the call or the ask, whichever was first, to the grant; each moment is charged to the first reason.',
    },
    blockTable(figures, names),
    runTable('Trains', figures.trains, names.train, names),
    runTable('People', figures.people, (id) => id, names),
    runTable('Cabs', figures.cabs, names.cab, names),
    codeTable('Refusals', figures.refusals),
    codeTable('Alarms', figures.alarms),
    {
      title: 'Overrides',
      columns: ['entry', 'time', 'train', 'person', 'reason'],
      rows: figures.overrides.map(({ entry, at, why, train, person }) => [
        String(entry),
        clock(at),
        names.train(train),
        person ?? '',
        why,
      ]),
    },
    throwTable(figures, throwSeconds),
  ];
}
