/** `cabward sessions`: the evenings in the log, newest first. */

import type { EveningCard } from '../../shared-model/wire/contract.ts';
import { cardOf } from '../host/evening-card.ts';
import { sessionRows } from '../host/log/sessions.ts';
import type { Answer } from './answer.ts';
import { isUnused, withLog } from './read-log.ts';

function line(card: EveningCard): string {
  const people = card.people.length === 0 ? 'nobody' : card.people.join(', ');
  const end = card.endedAt === null ? 'not ended' : `ended ${card.endedAt}`;
  return `${card.id}  ${card.name}  opened ${card.openedAt}, ${end}; ${card.entries} entries, ${card.refusals} refusals, ${card.alarms} alarms; ${people}`;
}

/** Lists the evenings. */
export function sessions({ log: named }: { readonly log?: string | undefined }): Answer {
  if (isUnused(named)) return { exit: 0, json: { sessions: [] }, text: 'No evening was held yet.' };
  return withLog(named, (log) => {
    const cards = sessionRows(log).map(cardOf);
    const text = cards.length === 0 ? 'No evening was held yet.' : cards.map(line).join('\n');
    return { exit: 0, json: { sessions: cards }, text };
  });
}
