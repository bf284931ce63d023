/** The newest thing that can be taken back: of a train, or of all. */
import type { TrainId } from '../../../shared-model/ids.ts';
import type { SessionEvent } from '../../../shared-model/session/event.ts';
import { isRetractable, type Verb } from '../../../shared-model/session/input.ts';
import { retractedEntries } from '../../../shared-model/session/retract.ts';

const TRAIN_REPORTS: readonly Verb[] = ['train-entered', 'train-cleared', 'train-stopped', 'train-at'];

/** The newest report or order that can be taken back; null when there is none among the newest events. */
export function lastRetractable(recent: readonly SessionEvent[]): SessionEvent | null {
  const gone = retractedEntries(recent);
  return (
    recent.findLast(
      ({ entry, input, outcome }) => outcome !== 'refused' && !gone.has(entry) && isRetractable(input),
    ) ?? null
  );
}

/** The newest report of where a train is, if nothing else was said of the train since. */
export function lastReportOf(recent: readonly SessionEvent[], train: TrainId): SessionEvent | null {
  const gone = retractedEntries(recent);
  const last = recent.findLast(
    ({ entry, input, outcome }) =>
      outcome !== 'refused' && !gone.has(entry) && 'train' in input && input.train === train,
  );
  return last !== undefined && TRAIN_REPORTS.includes(last.input.do) ? last : null;
}
