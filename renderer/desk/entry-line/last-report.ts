/** The newest thing that can be taken back: of a train, or of all. */
import type { TrainId } from '../../../shared-model/ids.ts';
import type { SessionEvent } from '../../../shared-model/session/event.ts';
import { isObservation, type Verb } from '../../../shared-model/session/input.ts';

/** Orders that can be taken back (3-session.md, retract); of observations, all can. */
const RETRACTABLE_ORDERS: readonly Verb[] = [
  'place-train',
  'turn-selector',
  'throw-turnout',
  'set-toggle',
  'declare',
  'tag',
  'untag',
  'settle',
];

const TRAIN_REPORTS: readonly Verb[] = ['train-entered', 'train-cleared', 'train-stopped', 'train-at'];

/** The entries that were taken back already. */
function takenBack(recent: readonly SessionEvent[]): ReadonlySet<number> {
  return new Set(
    recent.flatMap(({ input, outcome }) =>
      input.do === 'retract' && outcome !== 'refused' ? [input.entry] : [],
    ),
  );
}

/** The newest report or order that can be taken back; null when there is none among the newest events. */
export function lastRetractable(recent: readonly SessionEvent[]): SessionEvent | null {
  const gone = takenBack(recent);
  return (
    recent.findLast(
      ({ entry, input, outcome }) =>
        outcome !== 'refused' &&
        !gone.has(entry) &&
        (isObservation(input) || RETRACTABLE_ORDERS.includes(input.do)),
    ) ?? null
  );
}

/** The newest report of where a train is, if nothing else was said of the train since. */
export function lastReportOf(recent: readonly SessionEvent[], train: TrainId): SessionEvent | null {
  const gone = takenBack(recent);
  const last = recent.findLast(
    ({ entry, input, outcome }) =>
      outcome !== 'refused' && !gone.has(entry) && 'train' in input && input.train === train,
  );
  return last !== undefined && TRAIN_REPORTS.includes(last.input.do) ? last : null;
}
