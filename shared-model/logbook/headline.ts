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

/** Since when; of several times, the longest. */
const since = ({ longest, seconds }: WaitFigures, clock: ClockText): string =>
  longest.seconds === seconds
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
  const cause = waits.find(({ train }) => train === longest.id);
  const person = cause?.person ?? null;
  const whole = `${names.train(longest.id)}${person === null ? '' : ` (${person})`} waited longest: ${durationText(longest.waitSeconds)} of ${durationText(seconds)}`;
  if (cause === undefined) return { says: `${whole}.`, at: null };
  const most = `${durationText(cause.seconds)} of it for ${waitCause(names, cause.thing, cause.owner)}`;
  return { says: `${whole}, ${most}, ${since(cause, clock)}.`, at: cause.longest.from };
}

function bottleneck({ blocks, waits }: EveningFigures, names: Names): HeadlineSentence | null {
  const worst = blocks.toSorted((a, b) => b.waitSeconds - a.waitSeconds)[0];
  if (worst === undefined || worst.waitSeconds === 0) return null;
  const [longest] = waits
    .filter(({ block }) => block === worst.id)
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
