/** A thing that is touched while a line is being made goes into the line, as it is typed. */
import { typedFor } from './entry-line/complete.ts';
import type { LineContext } from './entry-line/reading.ts';
import { thingsOf } from './entry-line/things.ts';

/** @returns the line with the thing's word at its end; null when no line is being made */
export function insertThing(context: LineContext, line: string, thing: string): string | null {
  if (line.trim() === '') return null;
  const found = thingsOf(context.railroad, context.state).find(({ id }) => id === thing);
  if (found === undefined) return null;
  const gap = /[\s,]$/.test(line) ? '' : ' ';
  return `${line}${gap}${typedFor(found)} `;
}
