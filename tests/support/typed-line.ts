/** The line that says an input at the Desk, found by reading what might be typed. */
import { RECENT_EVENTS } from '../../renderer/console/followed-evening.ts';
import { readTyped } from '../../renderer/desk/entry-line/read-typed.ts';
import type { Evening } from '../../shared-model/session/evening.ts';
import type { SessionInput } from '../../shared-model/session/input.ts';
import { linesFor } from './desk-lines.ts';

/** The fields by name; "no overhang" is left out as often as it is said. */
const sorted = (value: unknown): string =>
  JSON.stringify(value, (_, part) =>
    part !== null && typeof part === 'object' && !Array.isArray(part)
      ? Object.fromEntries(
          Object.entries(part)
            .filter(([name, said]) => !(name === 'overhang' && said === false))
            .toSorted(([one], [other]) => (one < other ? -1 : 1)),
        )
      : part,
  );

/** The first of the lines for an input that means it and nothing else; null: there is none. */
export function typedLine(evening: Evening, input: SessionInput): string | null {
  const { railroad, state, events } = evening;
  const context = { railroad, state, recent: events.slice(-RECENT_EVENTS) };
  const found = linesFor(evening, input).find((line) => {
    const reading = readTyped(context, line);
    if (reading.kind !== 'one' || reading.proposal.act.kind !== 'send') return false;
    const [only, ...more] = reading.proposal.act.items;
    return more.length === 0 && only?.otherwise === undefined && sorted(only?.input) === sorted(input);
  });
  return found ?? null;
}
