/** `cabward rehearse`: a script of orders and observations through the rules; one entry a line, then the state after the last. */
import { lookAhead } from '../../shared-model/planning/look-ahead.ts';
import { newEvening, take } from '../../shared-model/session/evening.ts';
import type { SessionEvent } from '../../shared-model/session/event.ts';
import { parseScript } from '../../shared-model/session/script.ts';
import type { Throw } from '../../shared-model/session/state.ts';
import { stateAnswer } from '../../shared-model/session/state-answer.ts';
import { type Answer, inputError } from './answer.ts';
import { readText } from './files.ts';
import { readRunnableRailroad } from './runnable-railroad.ts';
import { stateLines } from './state-text.ts';

const throwAnswer = ({ kind, id, to, block, waitsFor, advice }: Throw) => ({
  kind,
  id,
  to,
  block,
  waitsFor,
  ...(advice === undefined ? {} : { advice }),
});

const guardAnswer = ({ kind, id, to, block }: Throw) => ({ kind, id, to, block });

/** What came of one line of the script. */
function entryAnswer({ at, input, outcome, reasons, authority, throws, guards }: SessionEvent) {
  return {
    at,
    do: input.do,
    outcome,
    reasons: reasons.map(({ code, about, says }) => ({ code, about, says })),
    ...(authority === undefined ? {} : { authority }),
    ...(throws === undefined ? {} : { throws: throws.map(throwAnswer) }),
    ...(guards === undefined || guards.length === 0 ? {} : { guards: guards.map(guardAnswer) }),
  };
}

function entryLines(event: SessionEvent): readonly string[] {
  const { at, input, outcome, authority } = event;
  const head = `${at} s: ${input.do}: ${outcome}${authority === undefined ? '' : `, authority ${authority}`}`;
  const throws = (event.throws ?? []).map(
    ({ kind, id, to, waitsFor }) =>
      `  ${kind} ${id} to ${String(to)}${waitsFor.length === 0 ? '' : ` (waits for ${waitsFor.join(', ')})`}`,
  );
  const guards = (event.guards ?? []).map(({ kind, id, to }) => `  guard: ${kind} ${id} to ${String(to)}`);
  return [head, ...event.reasons.map(({ code, says }) => `  ${code}: ${says}`), ...throws, ...guards];
}

/** Rehearses a script on a railroad; exit status 1 when an order was refused or an alarm raised. */
export function rehearse(railroadFile: string, scriptFile: string): Answer {
  const read = readRunnableRailroad(railroadFile);
  if (!read.ok) return read.answer;
  const text = readText(scriptFile);
  if (!text.ok) return text.answer;
  const railroad = read.value;
  const script = parseScript(railroad, text.value);
  if (!script.ok) return inputError(`${scriptFile}: line ${script.line}: ${script.says}`);

  let evening = newEvening(railroad, {}, lookAhead);
  const events: SessionEvent[] = [];
  for (const input of script.inputs) {
    const taken = take(evening, input);
    evening = taken.evening;
    events.push(taken.event);
  }
  const state = stateAnswer(railroad, evening.state);
  return {
    exit: events.some(({ outcome }) => outcome !== 'done') ? 1 : 0,
    json: { entries: events.map(entryAnswer), ...state },
    text: [...events.flatMap(entryLines), '', ...stateLines(state)].join('\n'),
  };
}
