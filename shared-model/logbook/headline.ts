/** The first thing that is asked of an evening, in one or two sentences: who waited longest, for what, and which block is the bottleneck. */
import type { Seconds } from '../units.ts';
import type { EveningFigures, WaitFigures } from './figure-types.ts';
import type { Names } from './names.ts';
import { type ClockText, durationText } from './time-text.ts';

/** A sentence, and where there is one the moment at which it can be seen. */
export interface HeadlineSentence {
  readonly says: string;
  readonly at: Seconds | null;
}

/** What a wait was for, in words: "block 5, which No. 12 had". */
export function waitCause(names: Names, thing: string | null, owner: string | null): string {
  if (thing === null) return 'the dispatcher, everything being free';
  return `${names.thing(thing)}${owner === null ? '' : `, which ${names.train(owner)} had`}`;
}

/** Waiting for one thing that one train had, whoever had the waiting train meanwhile. */
type Cause = Pick<WaitFigures, 'thing' | 'owner' | 'seconds' | 'longest'>;

/** Seconds are sums of fractions: so near to each other they are the same. */
const isSame = (one: Seconds, other: Seconds): boolean => Math.abs(one - other) < 0.001;

/** Two stretches of which one begins where the other ends are one. */
function joined(one: WaitFigures['longest'], next: WaitFigures['longest']): WaitFigures['longest'] {
  if (isSame(one.from + one.seconds, next.from))
    return { from: one.from, seconds: one.seconds + next.seconds };
  return next.seconds > one.seconds ? next : one;
}

/** What a train waited for, the most first. @param waits of that train */
function causesOf(waits: readonly WaitFigures[]): readonly Cause[] {
  const causes = new Map<string, Cause>();
  for (const { thing, owner, seconds, longest } of waits.toSorted(
    (a, b) => a.longest.from - b.longest.from,
  )) {
    const key = JSON.stringify([thing, owner]);
    const known = causes.get(key);
    causes.set(
      key,
      known === undefined
        ? { thing, owner, seconds, longest }
        : { ...known, seconds: known.seconds + seconds, longest: joined(known.longest, longest) },
    );
  }
  return [...causes.values()].toSorted((a, b) => b.seconds - a.seconds);
}

/** Who had the train while it waited, in the order of time: "Ada, then Kim". */
const peopleOf = (waits: readonly WaitFigures[]): string =>
  [
    ...new Set(
      waits
        .toSorted((a, b) => a.longest.from - b.longest.from)
        .flatMap(({ person }) => (person === null ? [] : [person])),
    ),
  ].join(', then ');

/** Since when; of several times, the longest. */
const since = ({ longest, seconds }: Cause, clock: ClockText): string =>
  isSame(longest.seconds, seconds)
    ? `from ${clock(longest.from)} on`
    : `at longest ${durationText(longest.seconds)} on end, from ${clock(longest.from)} on`;

/** Who waited longest: no matter for what, then for what most of it. */
function longestWait(
  { trains, waits, seconds }: EveningFigures,
  names: Names,
  clock: ClockText,
): HeadlineSentence | null {
  const longest = trains.toSorted((a, b) => b.waitSeconds - a.waitSeconds)[0];
  if (longest === undefined || longest.waitSeconds === 0) return null;
  const its = waits.filter(({ train }) => train === longest.id);
  const [cause] = causesOf(its);
  const people = peopleOf(its);
  const whole = `${names.train(longest.id)}${people === '' ? '' : ` (${people})`} waited longest: ${durationText(longest.waitSeconds)} of ${durationText(seconds)}`;
  if (cause === undefined) return { says: `${whole}.`, at: null };
  const most = `${durationText(cause.seconds)} of it for ${waitCause(names, cause.thing, cause.owner)}`;
  return { says: `${whole}, ${most}, ${since(cause, clock)}.`, at: cause.longest.from };
}

function bottleneck({ blocks, waits }: EveningFigures, names: Names): HeadlineSentence | null {
  const worst = blocks.toSorted((a, b) => b.waitSeconds - a.waitSeconds)[0];
  if (worst === undefined || worst.waitSeconds === 0) return null;
  const there = waits.filter(({ block }) => block === worst.id);
  const [longest] = [...new Set(there.map(({ train }) => train))]
    .flatMap((id) => causesOf(there.filter(({ train }) => train === id)))
    .toSorted((a, b) => b.longest.seconds - a.longest.seconds);
  return {
    says: `The bottleneck is ${names.thing(worst.id)}: ${Math.round(worst.waitShare * 100)} % of all waiting, ${durationText(worst.waitSeconds)}.`,
    at: longest?.longest.from ?? null,
  };
}

/** @returns sentences, the weightiest first; one that says so where nobody waited */
export function headline(
  figures: EveningFigures,
  names: Names,
  clock: ClockText,
): readonly HeadlineSentence[] {
  const longest = longestWait(figures, names, clock);
  if (longest === null) return [{ says: 'Nobody waited.', at: null }];
  return [longest, bottleneck(figures, names)].filter((sentence) => sentence !== null);
}
