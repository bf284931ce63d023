/** `cabward report`: the train sheet of an evening, its figures, and what was said and done. */
import { eveningCharts } from '../../shared-model/logbook/charts/evening-charts.ts';
import { tablesCsv } from '../../shared-model/logbook/csv.ts';
import { figuresReader } from '../../shared-model/logbook/figures.ts';
import { headline } from '../../shared-model/logbook/headline.ts';
import { reportNames, reportTables } from '../../shared-model/logbook/report-tables.ts';
import { sheetReader } from '../../shared-model/logbook/train-sheet.ts';
import { BESIDE_KIND, writtenBeside, writtenLines } from '../../shared-model/logbook/written-beside.ts';
import { indexRailroad } from '../../shared-model/railroad/railroad.ts';
import type { SessionEvent } from '../../shared-model/session/event.ts';
import { cardOf } from '../host/evening-card.ts';
import { readDocument } from '../host/log/documents.ts';
import { eveningFault } from '../host/log/evening-fault.ts';
import { readEvents } from '../host/log/events.ts';
import { keptOf } from '../host/log/kept.ts';
import type { ReadableLog } from '../host/log/log.ts';
import { retractedIn } from '../host/log/moments.ts';
import { initialStateOf, type SessionRow } from '../host/log/sessions.ts';
import { userSettingsIn } from '../host/user-settings.ts';
import { type Answer, inputError } from './answer.ts';
import { clockOf, dayOf, makeMoment } from './moment.ts';
import { withEvening } from './read-log.ts';
import { reportHtml, tableText } from './report-formats.ts';

const FORMATS = ['text', 'csv', 'html', 'json'] as const;
type Format = (typeof FORMATS)[number];
/** Of an evening of more entries, the entries themselves are not listed: they would fill the memory. */
const MOST_LISTED = 100_000;
/** What its JSON says instead of them. */
const LEFT_OUT = ['charts', 'events'] as const;

const count = (entries: number): string => entries.toLocaleString('en');

function eventLine({ entry, at, input, outcome, reasons }: SessionEvent): string {
  const { do: verb, ...fields } = input;
  const said = Object.entries(fields)
    .map(([name, value]) => `${name} ${typeof value === 'string' ? value : JSON.stringify(value)}`)
    .join(', ');
  const why = reasons.map((reason) => `${reason.code}: ${reason.says}`).join(' ');
  return `${String(entry).padStart(4)}  ${makeMoment(at)}  ${verb}${said === '' ? '' : ` (${said})`}: ${outcome}${why === '' ? '' : `. ${why}`}`;
}

function reported(log: ReadableLog, row: SessionRow, format: Format): Answer {
  const card = cardOf(row);
  const isLong = row.entries > MOST_LISTED;
  const railroad = indexRailroad(readDocument(log, row.railroadHash));
  const readers = { figures: figuresReader(railroad), sheet: sheetReader(railroad) };
  const fault = eveningFault(log, row, Object.values(readers));
  if (fault !== null) return inputError(`evening ${row.id} is not what was written: ${fault}`);
  const figures = readers.figures.figures();
  const sheet = readers.sheet.sheet();
  const events = isLong ? [] : readEvents(log, row.id, 1, row.entries);
  const { lengths, throwSeconds } = userSettingsIn(log);
  const style = { lengths, throwSeconds, clock: clockOf(card.openedAt) };
  const tables = reportTables(railroad, figures, sheet, style);
  const all = [...tables.sheet, ...tables.figures];
  const beside = writtenBeside(keptOf(log, BESIDE_KIND).find(({ id }) => id === row.uid)?.value);
  const head = [
    `${dayOf(card.openedAt)}, opened ${style.clock(0)}${card.endedAt === null ? ', not ended' : `, ended ${style.clock(figures.seconds)}`}`,
    `${railroad.document.name}, version ${card.railroadHash}`,
    ...writtenLines(beside),
    `${card.entries} entries, ${card.refusals} refusals, ${card.alarms} alarms; ${card.people.join(', ')}`,
    ...headline(figures, reportNames(railroad, sheet, style), style.clock).map(({ says }) => says),
  ];
  const foot = `head of the chain: ${card.headHash}`;
  const charts = () =>
    eveningCharts(
      railroad,
      { from: 0, to: figures.seconds },
      initialStateOf(log, row.id),
      events,
      retractedIn(log, row.id),
    );
  const json = {
    session: card,
    sheet,
    figures,
    ...(isLong ? { leftOut: LEFT_OUT } : { charts: charts(), events }),
  };
  const written: Readonly<Record<Format, () => string>> = {
    text: () =>
      [
        card.name,
        ...head,
        ...all.map((table) => `\n${tableText(table)}`),
        '',
        ...(isLong ? [`Its ${count(row.entries)} entries are not listed here.`] : events.map(eventLine)),
        '',
        foot,
      ].join('\n'),
    csv: () => tablesCsv(all).trimEnd(),
    html: () => reportHtml(card.name, [...head, foot], all),
    json: () => JSON.stringify(json),
  };
  return { exit: 0, json, text: written[format]() };
}

/** Reports an evening as text, CSV, a page to print, or JSON with every event. */
export function report(
  session: string,
  options: { readonly format?: string | undefined; readonly log?: string | undefined },
): Answer {
  const format = FORMATS.find((one) => one === (options.format ?? 'text'));
  if (format === undefined)
    return inputError(`--format: expected one of ${FORMATS.join(', ')}, not "${options.format}"`);
  return withEvening(options.log, session, (log, row) => reported(log, row, format));
}
