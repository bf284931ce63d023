/** `cabward plan`: a conflict-free schedule of moves and throws for the trains of a situation. */
import { drawsFrom } from '../../shared-model/chance.ts';
import { USUAL_OPTIONS } from '../../shared-model/planning/plan/options.ts';
import { plan as makePlan } from '../../shared-model/planning/plan.ts';
import type { PlanAnswer } from '../../shared-model/planning/plan-answer.ts';
import { planPeaks } from '../../shared-model/planning/plan-load.ts';
import { ampsText } from '../../shared-model/power/figures.ts';
import { isOver } from '../../shared-model/power/load.ts';
import type { Peak } from '../../shared-model/power/peak-load.ts';
import { type Answer, inputError } from './answer.ts';
import { readNumbers } from './number-option.ts';
import { readSituation } from './situation-file.ts';

/** The options as they were typed. */
export interface PlanCall {
  readonly throwSeconds?: string | undefined;
  readonly margin?: string | undefined;
  readonly throwsPerMinute?: string | undefined;
  readonly talkSeconds?: string | undefined;
  readonly startSeconds?: string | undefined;
  readonly limit?: string | undefined;
}

const SECONDS = { least: 0, most: 3600, unit: 'seconds' } as const;
const COUNT = { least: 1, most: 60, whole: true, unit: 'throws' } as const;
const LIMIT = { least: 0.01, most: 3600, unit: 'seconds' } as const;
const USUAL_LIMIT_SECONDS = '5';
/** The same situation gives the same draws. */
const SEED = 1;

/** The worst moment of what carries anything, and where that is too much. */
function loadWords(peaks: readonly Peak[]): readonly string[] {
  return peaks
    .filter(({ amps }) => amps > 0)
    .map(({ kind, name, amps, limit, at, trains }) => {
      const what = kind === 'selector' ? 'a contact of selector' : kind;
      const over = isOver(amps, limit) ? ', TOO MUCH' : '';
      return `  at worst ${what} ${name} carries ${ampsText(amps)} of ${ampsText(limit)}${over}, at ${at.toFixed(1)} s (${trains.join(', ')})`;
    });
}

function inWords({ verdict, moves, throws, total, lowerBound, proven }: PlanAnswer): string {
  if (verdict !== 'planned')
    return verdict === 'impossible'
      ? 'Impossible: no order of moves brings every train there.'
      : 'Undecided within the limit.';
  const seconds = (value: number): string => `${value.toFixed(1)} s`;
  return [
    `Planned: arrivals sum to ${seconds(total ?? 0)}${proven ? ', and no plan has less' : `; alone on the railroad they would have ${seconds(lowerBound ?? 0)}`}.`,
    ...throws.map(({ at, kind, id, to, waitsFor }) => {
      const after = waitsFor.map(({ train, block }) => `${train} has left ${block}`).join(', ');
      return `  ${seconds(at)}: ${kind} ${id} to ${String(to)}${after === '' ? '' : ` (when ${after})`}`;
    }),
    ...moves.map(
      ({ train, blocks, start, end }) =>
        `  ${seconds(start)} to ${seconds(end)}: ${train} by ${blocks.join(', ')}`,
    ),
  ].join('\n');
}

/** Exit status 1 for impossible and for undecided; reversals are not planned yet and are an input error. */
export function plan(railroadFile: string, situationFile: string, call: PlanCall): Answer {
  const numbers = readNumbers({
    throwSeconds: ['--throw-seconds', call.throwSeconds ?? String(USUAL_OPTIONS.throwSeconds), SECONDS],
    marginSeconds: ['--margin', call.margin ?? String(USUAL_OPTIONS.marginSeconds), SECONDS],
    throwsPerMinute: [
      '--throws-per-minute',
      call.throwsPerMinute ?? String(USUAL_OPTIONS.throwsPerMinute),
      COUNT,
    ],
    talkSeconds: ['--talk-seconds', call.talkSeconds ?? String(USUAL_OPTIONS.talkSeconds), SECONDS],
    startSeconds: ['--start-seconds', call.startSeconds ?? String(USUAL_OPTIONS.startSeconds), SECONDS],
    limitSeconds: ['--limit', call.limit ?? USUAL_LIMIT_SECONDS, LIMIT],
  });
  if (!numbers.ok) return inputError(numbers.says);
  const read = readSituation(railroadFile, situationFile);
  if (!read.ok) return read.answer;
  if (read.value.situation.reversals)
    return inputError(`${situationFile}: $.reversals: expected false, since plans have no reversals yet`);
  const { limitSeconds, ...options } = numbers.values;
  const end = performance.now() + limitSeconds * 1000;
  const answer = makePlan(read.value.railroad, read.value.situation, options, {
    draw: drawsFrom(SEED),
    shouldStop: () => performance.now() > end,
  });
  const peaks = planPeaks(read.value.railroad, read.value.situation, answer);
  const text = [inWords(answer), ...loadWords(peaks)].join('\n');
  return { exit: answer.verdict === 'planned' ? 0 : 1, json: answer, text };
}
