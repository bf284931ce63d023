/** `cabward capacity`: how many trains a railroad keeps moving, what stops one more, and what would help most. */
import { capacity as findCapacity } from '../../shared-model/planning/capacity.ts';
import type { CapacityAnswer } from '../../shared-model/planning/capacity-answer.ts';
import { type Answer, inputError } from './answer.ts';
import { readNumbers } from './number-option.ts';
import { readRunnableRailroad } from './runnable-railroad.ts';

const USUAL_LIMIT_SECONDS = '10';
const LIMIT = { least: 0.01, most: 3600, unit: 'seconds' } as const;
const SEED = { least: 0, most: 1_000_000, whole: true, unit: 'seed' } as const;
/** Helps named on paper; the JSON has all. */
const MOST_HELPS = 5;

function inWords({ trains, bounds, round, helps }: CapacityAnswer): string {
  const busiest = round?.occupancy.slice(0, 3) ?? [];
  return [
    `${trains} ${trains === 1 ? 'train keeps' : 'trains keep'} moving. What bounds it, the least first:`,
    ...bounds.map(({ limit, trains: count, says }) => `  ${limit} ${count}: ${says}`),
    ...(round === null
      ? []
      : [
          `One round of ${round.trains.length}, pressed together: ${round.seconds.toFixed(1)} s, ${round.throws} throws (an estimate after UIC Code 406).`,
          `Busiest: ${busiest.map(({ block, share }) => `${block} ${Math.round(share * 100)} %`).join(', ')}.`,
        ]),
    ...(helps.length === 0 ? ['Nothing that was tried would help.'] : ['What would help most:']),
    ...helps.slice(0, MOST_HELPS).map(({ says }) => `  ${says}`),
  ].join('\n');
}

/** Exit status 1 where not even one train can keep moving. */
export function capacity(
  railroadFile: string,
  call: { readonly limit?: string | undefined; readonly seed?: string | undefined },
): Answer {
  const numbers = readNumbers({
    limitSeconds: ['--limit', call.limit ?? USUAL_LIMIT_SECONDS, LIMIT],
    seed: ['--seed', call.seed ?? '1', SEED],
  });
  if (!numbers.ok) return inputError(numbers.says);
  const railroad = readRunnableRailroad(railroadFile);
  if (!railroad.ok) return railroad.answer;
  const { limitSeconds, seed } = numbers.values;
  const end = performance.now() + limitSeconds * 1000;
  const answer = findCapacity(railroad.value, {
    seed,
    shouldStop: () => performance.now() > end,
  });
  return { exit: answer.trains > 0 ? 0 : 1, json: answer, text: inWords(answer) };
}
