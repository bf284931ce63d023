/** Who was on duty from when to when: people by their cabs, dispatchers by the notes that say so. */
import type { SessionEvent } from '../session/event.ts';
import { entriesOf } from '../session/world.ts';
import type { Seconds } from '../units.ts';
import type { EveningReader } from './pass.ts';

/** `to` null: until the end of what is recorded. */
export interface Duty {
  readonly person: string;
  /** Null for a dispatcher. */
  readonly cab: string | null;
  readonly from: Seconds;
  readonly to: Seconds | null;
}

/** "Kim dispatches", whatever follows: one to three words, the first with a capital. */
const DISPATCHES = /^(\p{Lu}\S*(?:\s+\S+){0,2}?)\s+dispatches\b/u;

/** The dispatcher whom a note names; null for any other event. */
export function dispatcherNamed({ input, outcome }: SessionEvent): string | null {
  if (input.do !== 'note' || outcome === 'refused') return null;
  return DISPATCHES.exec(input.text.trim())?.[1] ?? null;
}

/** Ends what is open of a cab (null: of the dispatcher's desk), and begins the next where somebody has it. */
function relieve(duties: Duty[], cab: string | null, person: string | null, at: Seconds): void {
  const open = duties.findLastIndex((duty) => duty.cab === cab && duty.to === null);
  const ended = duties[open];
  if (ended !== undefined) duties[open] = { ...ended, to: at };
  if (person !== null) duties.push({ person, cab, from: at, to: null });
}

export function dutyReader(): EveningReader & {
  readonly duties: readonly Duty[];
  readonly dispatchers: readonly Duty[];
} {
  const duties: Duty[] = [];
  const dispatchers: Duty[] = [];
  return {
    duties,
    dispatchers,
    take: ({ before, after, event, counts }) => {
      const dispatcher = counts ? dispatcherNamed(event) : null;
      if (dispatcher !== null) relieve(dispatchers, null, dispatcher, event.at);
      // Nobody is on duty any longer, though the cabs are on record as theirs.
      if (after.phase === 'ended' && before.phase !== 'ended') {
        relieve(dispatchers, null, null, event.at);
        for (const [cab] of entriesOf(after.cabs)) relieve(duties, cab, null, event.at);
      }
      if (before.cabs === after.cabs) return;
      for (const [cab, { person }] of entriesOf(after.cabs))
        if ((before.cabs[cab]?.person ?? null) !== person) relieve(duties, cab, person, event.at);
    },
  };
}
