/** What bounds a plan besides the track: one pair of hands, one voice, and the time that a train loses when it starts. */
import type { Seconds } from '../../units.ts';

export interface PlanOptions {
  /** One throw of the hands. */
  readonly throwSeconds: Seconds;
  /** Between the end of a throw and the head that needs it, and between a tail and whatever comes next. */
  readonly marginSeconds: Seconds;
  /** Most throws that begin in any sixty seconds. */
  readonly throwsPerMinute: number;
  /** Words before each move, by one voice. */
  readonly talkSeconds: Seconds;
  /** Lost at each start from a stand. */
  readonly startSeconds: Seconds;
}

export const USUAL_OPTIONS: PlanOptions = {
  throwSeconds: 3,
  marginSeconds: 2,
  throwsPerMinute: 12,
  talkSeconds: 0,
  startSeconds: 0,
};

/** The window that `throwsPerMinute` counts in. */
export const MINUTE: Seconds = 60;
