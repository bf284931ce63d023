/** The guided phase check as it is filled in: what was ticked and typed, and what follows from it. */
import { DEFAULT_TOLERANCE_PERCENT } from '../../shared-model/power/angle-interval.ts';
import { checkPhase, type PhaseAnswer } from '../../shared-model/power/phase.ts';
import { READING, TOLERANCE } from '../../shared-model/power/ranges.ts';
import type { Supply } from '../../shared-model/railroad/document.ts';
import { figureIn } from './figure-box.tsx';

/** What has to be so before a meter touches anything, in the order of doing it. */
export const SET_UP = {
  noTrain: 'No train stands across a gap between the two, and none will.',
  selectorsOff: 'All selectors are off.',
  commons: 'The common posts of the two are joined by a wire.',
  handlesFull: 'Both handles are full up.',
  loads: 'A lamp or another load is on each output.',
  silent: 'No whistle, horn or bell sounds.',
} as const;
export type SetUp = keyof typeof SET_UP;
export const SET_UP_ITEMS = Object.keys(SET_UP) as readonly SetUp[];

/** Tolerance of a meter that shows the mean and not the true RMS value, on waves that are not sine. */
export const MEAN_METER_PERCENT = 10;

export const FIRST_DRAFT = {
  a: '',
  b: '',
  cautionsRead: false,
  noTrain: false,
  selectorsOff: false,
  commons: false,
  handlesFull: false,
  loads: false,
  silent: false,
  tolerance: String(DEFAULT_TOLERANCE_PERCENT),
  voltsA: '',
  voltsB: '',
  voltsAcross: '',
};
export type GuidedDraft = typeof FIRST_DRAFT;

/** The draft when another pair is chosen: what was said of the former says nothing of this one. */
export function draftFor(a: string, b: string): Partial<GuidedDraft> {
  const { tolerance: _, cautionsRead: __, ...rest } = FIRST_DRAFT;
  return { ...rest, a, b };
}

export interface Readings {
  readonly voltsA: number;
  readonly voltsB: number;
  readonly voltsAcross: number;
  readonly tolerancePercent: number;
}

/** The readings, once all of them are figures. */
export function readingsOf(draft: GuidedDraft): Readings | null {
  const [voltsA, voltsB, voltsAcross, tolerancePercent] = [
    figureIn(draft.voltsA, READING),
    figureIn(draft.voltsB, READING),
    figureIn(draft.voltsAcross, READING),
    figureIn(draft.tolerance, TOLERANCE),
  ];
  if (voltsA === null || voltsB === null || voltsAcross === null || tolerancePercent === null) return null;
  return { voltsA, voltsB, voltsAcross, tolerancePercent };
}

/** The verdict; both handles were said to be full up, else there is none. */
export function verdictOf(readings: Readings, a: Supply, b: Supply, matchedVolts: number): PhaseAnswer {
  const waves = [a.wave ?? 'unknown', b.wave ?? 'unknown'] as const;
  return checkPhase({ ...readings, waves, handlesFull: true, matchedVolts });
}

/**
 * Why the record would judge these readings otherwise: it takes sine waves, and in an evening the default tolerance.
 *
 * @returns null when it judges them alike
 */
export function recordedOtherwise(readings: Readings, answer: PhaseAnswer, evening: boolean): string | null {
  const tolerancePercent = evening ? DEFAULT_TOLERANCE_PERCENT : readings.tolerancePercent;
  const recorded = checkPhase({ ...readings, tolerancePercent });
  return recorded.verdict === answer.verdict
    ? null
    : `The record takes sine waves and a meter of ±${tolerancePercent} %, and would call this ${recorded.verdict.replace('-', ' ')}. It is not recorded: measure again as the words above say.`;
}
