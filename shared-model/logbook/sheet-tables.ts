/** The train sheet as tables of words. */
import type { Millimetres, Seconds } from '../units.ts';
import type { Duty } from './duties.ts';
import { modelLengthText } from './model-length.ts';
import type { Names } from './names.ts';
import type { ReportStyle, ReportTable } from './report-types.ts';
import { railroadTimeText } from './time-text.ts';
import type { TrainSheet } from './train-sheet.ts';

const dutyTable = (
  title: string,
  duties: readonly Duty[],
  when: (at: Seconds | null) => string,
  cabs: ((duty: Duty) => string) | null,
): ReportTable => ({
  title,
  columns: ['person', ...(cabs === null ? [] : ['cab']), 'on duty from', 'to'],
  rows: duties.map((duty) => [
    duty.person,
    ...(cabs === null ? [] : [cabs(duty)]),
    when(duty.from),
    when(duty.to),
  ]),
});

/** Places with their distances from the first and from the one before. */
function pointTable(sheet: TrainSheet, names: Names): ReportTable {
  const known = (mm: Millimetres | null): string => (mm === null ? '' : names.distance(mm));
  return {
    title: 'Reporting points',
    columns: ['place', `${names.distanceUnit} from the first`, `${names.distanceUnit} from the one before`],
    rows: sheet.points.map(({ place, fromFirstMm, fromBeforeMm }) => [
      names.place(place),
      known(fromFirstMm),
      known(fromBeforeMm),
    ]),
    note: 'Distances by the shortest track.',
  };
}

export function sheetTables(
  sheet: TrainSheet,
  names: Names,
  { clock, lengths }: ReportStyle,
): readonly ReportTable[] {
  const withRailroadTime = sheet.clocks.some((one) => one.clock !== null);
  const when = (at: Seconds | null): string => (at === null ? '' : clock(at));
  const railroadTime = (at: Seconds | null): readonly string[] =>
    withRailroadTime ? [at === null ? '' : railroadTimeText(sheet.clocks, at)] : [];
  const railroadColumn = (title: string): readonly string[] => (withRailroadTime ? [title] : []);
  return [
    dutyTable('Dispatchers', sheet.dispatchers, when, null),
    dutyTable('People', sheet.duties, when, ({ cab }) => names.cab(cab)),
    {
      title: 'Trains and engines',
      columns: ['train', 'length', 'on the track from', 'cabs', `${names.distanceUnit} by blocks reported`],
      rows: sheet.trains.map((train) => [
        train.name,
        modelLengthText(train.lengthMm, lengths),
        clock(train.placed),
        train.cabs.map(names.cab).join(', '),
        names.distance(train.distanceMm),
      ]),
      note: 'Running inside limits is not reported, so it is left out.',
    },
    pointTable(sheet, names),
    {
      title: 'Trains at reporting points',
      columns: [
        'train',
        'place',
        'arrived',
        ...railroadColumn('railroad time'),
        'departed',
        ...railroadColumn('railroad time then'),
        'direction',
        `${names.distanceUnit} by blocks reported`,
      ],
      rows: sheet.passings.map((passing) => [
        names.train(passing.train),
        names.place(passing.place),
        clock(passing.arrived),
        ...railroadTime(passing.arrived),
        when(passing.departed),
        ...railroadTime(passing.departed),
        passing.direction ?? '',
        names.distance(passing.distanceMm),
      ]),
      note: `Up is away from ${sheet.points[0] === undefined ? 'the first place' : names.place(sheet.points[0].place)}. Distance is since the reporting point before, limits left out.`,
    },
    {
      title: 'Unusual events',
      columns: ['entry', 'time', ...railroadColumn('railroad time'), 'what', 'trains'],
      rows: sheet.unusual.map(({ entry, at, says, trains }) => [
        String(entry),
        clock(at),
        ...railroadTime(at),
        says,
        trains.map((id) => names.train(id)).join(', '),
      ]),
    },
  ];
}
