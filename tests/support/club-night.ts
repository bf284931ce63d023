/** The club night on the mill branch as it is typed at the Desk: each input after the opening, with its moment and its line. */
import { readFileSync } from 'node:fs';
import { lookAhead } from '../../shared-model/planning/look-ahead.ts';
import { indexRailroad } from '../../shared-model/railroad/railroad.ts';
import { newEvening, take } from '../../shared-model/session/evening.ts';
import type { TimedInput } from '../../shared-model/session/input.ts';
import { parseScript } from '../../shared-model/session/script.ts';
import { MILL_BRANCH } from './mill-branch.ts';
import { typedLine } from './typed-line.ts';

const SCRIPT = new URL('./club-night.script.jsonl', import.meta.url);

interface TypedInput extends TimedInput {
  /** Null: nothing that can be typed says it. */
  readonly line: string | null;
}

export function clubNight(): readonly TypedInput[] {
  const railroad = indexRailroad(MILL_BRANCH);
  const script = parseScript(railroad, readFileSync(SCRIPT, 'utf8'));
  if (!script.ok) throw new Error(`line ${script.line}: ${script.says}`);
  const lines: TypedInput[] = [];
  let evening = newEvening(railroad, {}, lookAhead);
  for (const timed of script.inputs) {
    if (timed.input.do !== 'open-session') lines.push({ ...timed, line: typedLine(evening, timed.input) });
    evening = take(evening, timed).evening;
  }
  return lines;
}
