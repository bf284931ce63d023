/** The figures and the sheet of an evening as tables of words: what text, CSV and HTML print alike. */
import type { Railroad } from '../railroad/railroad.ts';
import { spokenBlock } from '../session/say.ts';
import type { SessionState } from '../session/state.ts';
import type { Millimetres, Seconds } from '../units.ts';
import { scaleMiles } from './distance.ts';
import type { EveningFigures, RunFigures } from './figures.ts';
import type { TrainSheet } from './train-sheet.ts';

export interface ReportTable {
  readonly title: string;
  readonly columns: readonly string[];
  readonly rows: readonly (readonly string[])[];
}

const two = (value: number): string => String(value).padStart(2, '0');

/** Hours, minutes and whole seconds: "1:02:03". */
export function durationText(seconds: Seconds): string {
  const whole = Math.round(seconds);
  return `${Math.floor(whole / 3600)}:${two(Math.floor(whole / 60) % 60)}:${two(whole % 60)}`;
}

interface Names {
  readonly miles: (lengthMm: Millimetres) => string;
  readonly train: (id: string | null) => string;
  readonly cab: (id: string) => string;
  readonly thing: (id: string | null) => string;
}

function namesOf(railroad: Railroad, final: SessionState): Names {
  const { document } = railroad;
  const trains = new Map(Object.entries(final.trains).map(([id, { name }]) => [id, name]));
  return {
    miles: (lengthMm) => scaleMiles(lengthMm, document.scaleRatio).toFixed(2),
    train: (id) => (id === null ? '' : (trains.get(id) ?? id)),
    cab: (id) => document.throttles.find((throttle) => throttle.id === id)?.name ?? id,
    thing: (id) => (id === null ? 'the dispatcher' : spokenBlock(railroad, id)),
  };
}

const RUN_COLUMNS = [
  'time',
  'scale miles by blocks reported',
  'moves',
  'hand-offs',
  'waited',
  'refusals',
  'alarms',
] as const;

const runTable = (
  title: string,
  runs: readonly RunFigures[],
  name: (id: string) => string,
  { miles }: Names,
): ReportTable => ({
  title,
  columns: ['name', ...RUN_COLUMNS],
  rows: runs.map((run) => [
    name(run.id),
    durationText(run.seconds),
    miles(run.distanceMm),
    String(run.moves),
    String(run.handOffs),
    durationText(run.waitSeconds),
    String(run.refusals),
    String(run.alarms),
  ]),
});

const codeTable = (title: string, codes: EveningFigures['refusals']): ReportTable => ({
  title,
  columns: ['code', 'count'],
  rows: codes.map(({ code, count }) => [code, String(count)]),
});

function figureTables(figures: EveningFigures, names: Names): readonly ReportTable[] {
  return [
    runTable('People', figures.people, (id) => id, names),
    runTable('Cabs', figures.cabs, names.cab, names),
    runTable('Trains', figures.trains, names.train, names),
    {
      title: 'Blocks',
      columns: ['block', 'occupied', 'held', 'waiting caused', 'share of waiting'],
      rows: figures.blocks.map((block) => [
        names.thing(block.id),
        durationText(block.occupiedSeconds),
        durationText(block.heldSeconds),
        durationText(block.waitSeconds),
        `${(block.waitShare * 100).toFixed(0)} %`,
      ]),
    },
    {
      title: 'Waits',
      columns: ['train', 'waited for', 'held by', 'time'],
      rows: figures.waits.map((wait) => [
        names.train(wait.train),
        names.thing(wait.thing),
        names.train(wait.owner),
        durationText(wait.seconds),
      ]),
    },
    codeTable('Refusals', figures.refusals),
    codeTable('Alarms', figures.alarms),
    {
      title: 'Overrides',
      columns: ['entry', 'time', 'reason'],
      rows: figures.overrides.map(({ entry, at, why }) => [String(entry), durationText(at), why]),
    },
    {
      title: 'Throws per minute',
      columns: ['minute', 'throws'],
      rows: figures.throwsPerMinute.map((count, minute) => [String(minute), String(count)]),
    },
  ];
}

function railroadTime(minutes: number | null): string {
  if (minutes === null) return '';
  return `${Math.floor(minutes / 60)}:${two(Math.floor(minutes % 60))}`;
}

function sheetTables(railroad: Railroad, sheet: TrainSheet, names: Names): readonly ReportTable[] {
  const place = (id: string): string => railroad.document.places.find((one) => one.id === id)?.name ?? id;
  const until = (at: Seconds | null): string => (at === null ? '' : durationText(at));
  return [
    {
      title: 'Times on duty',
      columns: ['person', 'cab', 'from', 'to'],
      rows: sheet.duties.map((duty) => [
        duty.person,
        names.cab(duty.cab),
        durationText(duty.from),
        until(duty.to),
      ]),
    },
    {
      title: 'Trains at reporting points',
      columns: [
        'train',
        'place',
        'arrived',
        'departed',
        'railroad time',
        'direction',
        'scale miles by blocks reported, limits left out',
      ],
      rows: sheet.passings.map((passing) => [
        names.train(passing.train),
        place(passing.place),
        durationText(passing.arrived),
        until(passing.departed),
        railroadTime(passing.railroadMinutes),
        passing.direction ?? '',
        names.miles(passing.distanceMm),
      ]),
    },
    {
      title: 'Unusual events',
      columns: ['entry', 'time', 'what', 'trains'],
      rows: sheet.unusual.map(({ entry, at, says, trains }) => [
        String(entry),
        durationText(at),
        says,
        trains.map(names.train).join(', '),
      ]),
    },
  ];
}

/**
 * Everything that is printed of an evening, the sheet first. Times are since the session was opened.
 *
 * @param final the state after the last event, for the names of trains added tonight
 */
export function reportTables(
  railroad: Railroad,
  final: SessionState,
  figures: EveningFigures,
  sheet: TrainSheet,
): readonly ReportTable[] {
  const names = namesOf(railroad, final);
  return [...sheetTables(railroad, sheet, names), ...figureTables(figures, names)];
}
