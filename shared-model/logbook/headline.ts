/** The first thing that is asked of an evening, in one or two sentences: who waited longest, for what, and which block is the bottleneck. */
import type { EveningFigures } from './figure-types.ts';
import type { Names } from './names.ts';
import { durationText } from './time-text.ts';

/** What a wait was for, in words: "block 5, which No. 12 had". */
export function waitCause(names: Names, thing: string | null, owner: string | null): string {
  if (thing === null) return 'the dispatcher, everything being free';
  return `${names.thing(thing)}${owner === null ? '' : `, which ${names.train(owner)} had`}`;
}

/** @returns sentences, the weightiest first; one that says so where nobody waited */
export function headline(
  { trains, blocks, waits, seconds }: EveningFigures,
  names: Names,
): readonly string[] {
  const longest = trains.toSorted((a, b) => b.waitSeconds - a.waitSeconds)[0];
  if (longest === undefined || longest.waitSeconds === 0) return ['Nobody waited.'];
  const cause = waits.find(({ train }) => train === longest.id);
  const with_ = cause?.person === null || cause === undefined ? '' : ` (${cause.person})`;
  const whole = `${names.train(longest.id)}${with_} waited longest: ${durationText(longest.waitSeconds)} of ${durationText(seconds)}`;
  const most =
    cause === undefined
      ? ''
      : `, ${durationText(cause.seconds)} of it for ${waitCause(names, cause.thing, cause.owner)}`;
  const worst = blocks.toSorted((a, b) => b.waitSeconds - a.waitSeconds)[0];
  return [
    `${whole}${most}.`,
    ...(worst === undefined || worst.waitSeconds === 0
      ? []
      : [
          `The bottleneck is ${names.thing(worst.id)}: ${Math.round(worst.waitShare * 100)} % of all waiting, ${durationText(worst.waitSeconds)}.`,
        ]),
  ];
}
