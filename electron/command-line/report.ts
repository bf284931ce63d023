/** `cabward report`: the train sheet of an evening, its figures, and what was said and done. */
import { eveningFigures } from '../../shared-model/logbook/figures.ts';
import { reportTables } from '../../shared-model/logbook/report-tables.ts';
import { trainSheet } from '../../shared-model/logbook/train-sheet.ts';
import { indexRailroad } from '../../shared-model/railroad/railroad.ts';
import type { SessionEvent } from '../../shared-model/session/event.ts';
import { foldEvents } from '../../shared-model/session/fold.ts';
import { cardOf } from '../host/evening-card.ts';
import { readDocument } from '../host/log/documents.ts';
import { eveningFault } from '../host/log/evening-fault.ts';
import { readEvents } from '../host/log/events.ts';
import { initialStateOf } from '../host/log/sessions.ts';
import { type Answer, inputError } from './answer.ts';
import { makeMoment } from './moment.ts';
import { withEvening } from './read-log.ts';
import { reportHtml, tablesCsv, tableText } from './report-formats.ts';

const FORMATS = ['text', 'csv', 'html', 'json'] as const;

function eventLine({ entry, at, input, outcome, reasons }: SessionEvent): string {
  const { do: verb, ...fields } = input;
  const said = Object.entries(fields)
    .map(([name, value]) => `${name} ${typeof value === 'string' ? value : JSON.stringify(value)}`)
    .join(', ');
  const why = reasons.map((reason) => `${reason.code}: ${reason.says}`).join(' ');
  return `${String(entry).padStart(4)}  ${makeMoment(at)}  ${verb}${said === '' ? '' : ` (${said})`}: ${outcome}${why === '' ? '' : `. ${why}`}`;
}

/** Reports an evening as text, CSV, a page to print, or JSON with every event. */
export function report(
  session: string,
  options: { readonly format?: string | undefined; readonly log?: string | undefined },
): Answer {
  const format = FORMATS.find((one) => one === (options.format ?? 'text'));
  if (format === undefined)
    return inputError(`--format: expected one of ${FORMATS.join(', ')}, not "${options.format}"`);
  return withEvening(options.log, session, (log, row) => {
    const fault = eveningFault(log, row);
    if (fault !== null) return inputError(`evening ${row.id} is not what was written: ${fault}`);
    const card = cardOf(row);
    const events = readEvents(log, row.id, 1, row.entries);
    const railroad = indexRailroad(readDocument(log, row.railroadHash));
    const initial = initialStateOf(log, row.id);
    const figures = eveningFigures(railroad, initial, events);
    const sheet = trainSheet(railroad, initial, events);
    const tables = reportTables(railroad, foldEvents(initial, events), figures, sheet);
    const json = { session: card, sheet, figures, events };
    const head = [
      `opened ${card.openedAt}${card.endedAt === null ? '' : `, ended ${card.endedAt}`}`,
      `${railroad.document.name}, version ${card.railroadHash}`,
      'dispatcher and timetable: not recorded by the session',
      `${card.entries} entries, ${card.refusals} refusals, ${card.alarms} alarms; ${card.people.join(', ')}`,
    ];
    const foot = `head of the chain: ${card.headHash}`;
    const written = {
      text: () =>
        [
          card.name,
          ...head,
          ...tables.map((table) => `\n${tableText(table)}`),
          '',
          ...events.map(eventLine),
          '',
          foot,
        ].join('\n'),
      csv: () => tablesCsv(tables).trimEnd(),
      html: () => reportHtml(card.name, [...head, foot], tables),
      json: () => JSON.stringify(json),
    };
    return { exit: 0, json, text: written[format]() };
  });
}
