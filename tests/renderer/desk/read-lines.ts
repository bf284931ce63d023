/** Lines of the entry line as the tests read them, and the moments of an evening at which they are typed. */
import { readTyped } from '../../../renderer/desk/entry-line/read-typed.ts';
import type { Reading } from '../../../renderer/desk/entry-line/reading.ts';
import type { Evening } from '../../../shared-model/session/evening.ts';
import { contextOf, played, running } from './demo-evening.ts';

export const read = (line: string, evening: Evening = running): Reading =>
  readTyped(contextOf(evening), line);

/** The inputs that Enter would send; an error where the line is not one thing to send. */
export function inputsOf(line: string, evening: Evening = running): readonly object[] {
  const reading = read(line, evening);
  if (reading.kind !== 'one' || reading.proposal.act.kind !== 'send')
    throw new Error(`"${line}" is ${JSON.stringify(reading)}`);
  return reading.proposal.act.items.map(({ input }) => input);
}

export const choicesOf = (line: string, evening: Evening = running): readonly string[] => {
  const reading = read(line, evening);
  return reading.kind === 'several' ? reading.proposals.map(({ says }) => says) : [];
};
export const expectedOf = (line: string, evening: Evening = running): string => {
  const reading = read(line, evening);
  return reading.kind === 'expected' ? reading.says : '';
};

export const granted = played(running, { do: 'request-move', train: 't7', to: 'B4', overhang: true });
export const withCut = played(running, {
  do: 'set-out',
  train: 't7',
  cut: 'cut3',
  length: 600,
  edge: 'e6',
  toward: 'g3',
});
