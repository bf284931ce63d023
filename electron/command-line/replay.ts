/** `cabward replay`: the state of an evening at a moment, folded from the log. */
import { indexRailroad } from '../../shared-model/railroad/railroad.ts';
import { stateAnswer } from '../../shared-model/session/state-answer.ts';
import { readDocument } from '../host/log/documents.ts';
import { eveningFault } from '../host/log/evening-fault.ts';
import { entryAt } from '../host/log/moments.ts';
import { stateAt } from '../host/log/state-at.ts';
import { type Answer, inputError } from './answer.ts';
import { makeMoment, parseMoment } from './moment.ts';
import { withEvening } from './read-log.ts';
import { stateLines } from './state-text.ts';

/** An evening of so many entries is gone through before it is replayed; a longer one would be waited for too long. */
const CHECKED_AT_ONCE = 20_000;
const NOT_CHECKED =
  'So long an evening is not gone through for this; cabward verify tells whether it is what was written.';

/** Replays an evening to a moment; without one, to its end. */
export function replay(
  session: string,
  options: { readonly at?: string | undefined; readonly log?: string | undefined },
): Answer {
  const at = options.at === undefined ? Number.POSITIVE_INFINITY : parseMoment(options.at);
  if (at === null)
    return inputError(
      `--at: expected seconds, m:ss or h:mm:ss since the evening was opened, not "${options.at}"`,
    );
  return withEvening(options.log, session, (log, row) => {
    const isLong = row.entries > CHECKED_AT_ONCE;
    const fault = isLong ? null : eveningFault(log, row);
    if (fault !== null) return inputError(`evening ${row.id} is not what was written: ${fault}`);
    const entry = entryAt(log, row.id, row.entries, at);
    const state = stateAt(log, row.id, entry);
    const answer = stateAnswer(indexRailroad(readDocument(log, row.railroadHash)), state);
    const head = `evening ${row.id} at ${makeMoment(state.at)}, after entry ${entry}: ${state.phase}`;
    return {
      exit: 0,
      json: { session: String(row.id), entry, at: state.at, phase: state.phase, ...answer },
      text: [head, ...(isLong ? [NOT_CHECKED] : []), ...stateLines(answer)].join('\n'),
    };
  });
}
