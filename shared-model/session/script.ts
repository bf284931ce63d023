/**
 * A script: JSON Lines, one order or observation a line, `{"at": seconds, "do": …}`.
 * The whole of it is checked before anything runs; what is wrong is told with the number of its line in the file.
 */
import { parseJson, parseValue } from '../malformed.ts';
import type { Railroad } from '../railroad/railroad.ts';
import { problemWith } from './evening.ts';
import { initialState, unplacedTrain } from './initial.ts';
import { type SessionInput, sessionInput, type TimedInput } from './input.ts';
import type { SessionState } from './state.ts';

export type Script =
  | { readonly ok: true; readonly inputs: readonly TimedInput[] }
  | { readonly ok: false; readonly line: number; readonly says: string };

type ParsedLine =
  | { readonly ok: true; readonly value: TimedInput }
  | { readonly ok: false; readonly says: string };

/** One line without regard to the lines before it: JSON, an `at`, and an input with no unknown field. */
function parseLine(text: string): ParsedLine {
  const json = parseJson(text);
  if (!json.ok) return { ok: false, says: json.malformed.says };
  if (typeof json.value !== 'object' || json.value === null || Array.isArray(json.value))
    return { ok: false, says: 'expected an object like {"at": 0, "do": "open-session"}' };
  const { at, ...rest } = json.value as Record<string, unknown>;
  if (typeof at !== 'number' || !Number.isFinite(at) || at < 0)
    return { ok: false, says: `$.at: expected seconds of 0 or more, not ${JSON.stringify(at) ?? 'nothing'}` };
  const input = parseValue(sessionInput, rest);
  if (input.ok) return { ok: true, value: { at, input: input.value } };
  const { path, says } = input.malformed;
  const given = path === '$.do' && rest.do !== undefined ? `, not ${JSON.stringify(rest.do)}` : '';
  return { ok: false, says: `${path}: ${says}${given}` };
}

/** The state with the names that an input brings into the evening, so that later inputs may use them before anything has run. */
export function withNamesOf(state: SessionState, input: SessionInput): SessionState {
  const plain = input.do === 'override' ? input.order : input;
  if (plain.do === 'add-train' && state.trains[plain.train] === undefined)
    return { ...state, trains: { ...state.trains, [plain.train]: unplacedTrain(plain, true) } };
  if (plain.do === 'set-out' && state.cuts[plain.cut] === undefined)
    return {
      ...state,
      cuts: { ...state.cuts, [plain.cut]: { length: plain.length, trail: [], blocks: [] } },
    };
  return state;
}

/** An entry or alarm number has to be that of a line before this one. */
function numberProblem(input: SessionInput, before: number): string | null {
  const number = input.do === 'retract' ? input.entry : input.do === 'alarm-seen' ? input.alarm : null;
  if (number === null || number <= before) return null;
  const field = input.do === 'retract' ? 'entry' : 'alarm';
  return `$.${field}: expected the number of an earlier input, 1 to ${before}, not ${number}`;
}

/**
 * Parses and checks a whole script. Blank lines and lines that begin with `#` are passed over; `at` never goes back.
 *
 * @param railroad the railroad it is for: every name has to be in it, or be added or set out by an earlier line (authority numbers excepted)
 * @returns the inputs in order; or the number (from 1) of the first wrong line, and what was expected there
 */
export function parseScript(railroad: Railroad, text: string): Script {
  const inputs: TimedInput[] = [];
  let names = initialState(railroad);
  let last = 0;
  for (const [index, raw] of text.split('\n').entries()) {
    const line = index === 0 && raw.startsWith('\ufeff') ? raw.slice(1) : raw;
    if (line.trim() === '' || line.trimStart().startsWith('#')) continue;
    const wrong = (says: string): Script => ({ ok: false, line: index + 1, says });
    const parsed = parseLine(line);
    if (!parsed.ok) return wrong(parsed.says);
    const { at, input } = parsed.value;
    if (at < last) return wrong(`$.at: expected ${last} or more, since time never goes back, not ${at}`);
    const problem = numberProblem(input, inputs.length) ?? problemWith(railroad, names, input);
    if (problem !== null) return wrong(problem);
    inputs.push({ at, input });
    names = withNamesOf(names, input);
    last = at;
  }
  return { ok: true, inputs };
}
