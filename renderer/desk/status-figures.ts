/** The figures of the status line: whose report is oldest, how much of the hands' time throws took, what is known of the phases. */
import type { SupplyId, TrainId } from '../../shared-model/ids.ts';
import { type PhaseRelation, phaseRelation } from '../../shared-model/power/phase-groups.ts';
import type { Railroad } from '../../shared-model/railroad/railroad.ts';
import type { SessionEvent } from '../../shared-model/session/event.ts';
import type { Verb } from '../../shared-model/session/input.ts';
import type { SessionState, TrainNow } from '../../shared-model/session/state.ts';

/** After so long without a report a train that runs is asked after. */
export const SILENT_SECONDS = 90;
const HANDS_WINDOW_SECONDS = 300;
/** A shorter stretch says nothing: one throw in the first seconds is not haste. */
const LEAST_WINDOW_SECONDS = 60;
const THROWS: readonly Verb[] = ['turn-selector', 'throw-turnout', 'set-toggle'];

export interface OldestReport {
  readonly train: TrainId;
  readonly name: string;
  readonly seconds: number;
}

/** Trains that run: placed, on the rails, and not reported to stand. */
const runs = ({ placed, stopped, coupledInto }: TrainNow): boolean =>
  placed && !stopped && coupledInto === null;

/** The running train that was heard of longest ago. */
export function oldestReport({ trains }: SessionState, now: number): OldestReport | null {
  const list = (Object.entries(trains) as [TrainId, TrainNow][])
    .filter(([, train]) => runs(train))
    .map(([train, { name, lastReportAt }]) => ({ train, name, seconds: now - (lastReportAt ?? now) }));
  return list.toSorted((a, b) => b.seconds - a.seconds)[0] ?? null;
}

/** Whether a running train was not heard of for too long. */
export const isSilent = (train: TrainNow, now: number): boolean =>
  runs(train) && train.lastReportAt !== null && now - train.lastReportAt > SILENT_SECONDS;

/**
 * The share of the hands' time that throws took in the last five minutes (or since the session was opened).
 *
 * @param throwSeconds time of one throw
 * @returns a percentage; above 100 the hands cannot keep up
 */
export function handsLoad(recent: readonly SessionEvent[], now: number, throwSeconds: number): number {
  const window = Math.min(HANDS_WINDOW_SECONDS, Math.max(now, LEAST_WINDOW_SECONDS));
  const throws = recent.filter(
    ({ at, input, outcome }) => at > now - window && outcome !== 'refused' && THROWS.includes(input.do),
  );
  return Math.round((throws.length * throwSeconds * 100) / window);
}

const SIGNS: Readonly<Record<PhaseRelation, string>> = {
  same: '=',
  'in-phase': '=',
  reversed: ' reversed to ',
  'different-legs': ' on another leg than ',
  unknown: '?',
};

/** "phase N=S 19:05": the newest check of each pair, by the first letters of the supplies; what is not known has a question mark. */
export function phaseWords(
  { supplies }: Railroad,
  { checks }: SessionState,
  timeOf: (at: number) => string,
): string {
  if (checks.length === 0) return supplies.size < 2 ? '' : 'phase not checked';
  const initial = (id: SupplyId): string => (supplies.get(id)?.name ?? id).charAt(0).toUpperCase();
  return checks
    .map(
      ({ a, b, at }) => `phase ${initial(a)}${SIGNS[phaseRelation(checks, a, b)]}${initial(b)} ${timeOf(at)}`,
    )
    .join(', ');
}
