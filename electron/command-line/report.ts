/** `cabward report`: an evening as a list of what was said and done. */
import type { SessionEvent } from '../../shared-model/session/event.ts';
import { cardOf } from '../host/evening-card.ts';
import { eveningFault } from '../host/log/evening-fault.ts';
import { readEvents } from '../host/log/events.ts';
import { type Answer, inputError } from './answer.ts';
import { makeMoment } from './moment.ts';
import { withEvening } from './read-log.ts';

const FORMATS = ['text', 'json'] as const;

function eventLine({ entry, at, input, outcome, reasons }: SessionEvent): string {
  const { do: verb, ...fields } = input;
  const said = Object.entries(fields)
    .map(([name, value]) => `${name} ${typeof value === 'string' ? value : JSON.stringify(value)}`)
    .join(', ');
  const why = reasons.map((reason) => `${reason.code}: ${reason.says}`).join(' ');
  return `${String(entry).padStart(4)}  ${makeMoment(at)}  ${verb}${said === '' ? '' : ` (${said})`}: ${outcome}${why === '' ? '' : `. ${why}`}`;
}

/** Reports an evening as text, or as JSON with every event. */
export function report(
  session: string,
  options: { readonly format?: string | undefined; readonly log?: string | undefined },
): Answer {
  const format = options.format ?? 'text';
  if (!(FORMATS as readonly string[]).includes(format))
    return inputError(`--format: expected one of ${FORMATS.join(', ')}, not "${format}"`);
  return withEvening(options.log, session, (log, row) => {
    const fault = eveningFault(log, row);
    if (fault !== null) return inputError(`evening ${row.id} is not what was written: ${fault}`);
    const card = cardOf(row);
    const events = readEvents(log, row.id, 1, row.entries);
    const json = { session: card, events };
    const text = [
      card.name,
      `opened ${card.openedAt}${card.endedAt === null ? '' : `, ended ${card.endedAt}`}`,
      `${card.entries} entries, ${card.refusals} refusals, ${card.alarms} alarms; ${card.people.join(', ')}`,
      '',
      ...events.map(eventLine),
      '',
      `head of the chain: ${card.headHash}`,
    ];
    return { exit: 0, json, text: format === 'json' ? JSON.stringify(json) : text.join('\n') };
  });
}
