/** The roll call after a stop: which trains were asked where they are, and what one key says of the next one. */
import type { TrainId } from '../../shared-model/ids.ts';
import type { SessionEvent } from '../../shared-model/session/event.ts';
import type { SessionInput } from '../../shared-model/session/input.ts';
import type { TrainNow } from '../../shared-model/session/state.ts';
import { asShown, asShownSince } from './as-shown.ts';
import type { LineContext } from './entry-line/reading.ts';
import { trainsInOrder } from './trains-in-order.ts';

export interface RollTrain {
  readonly id: TrainId;
  readonly train: TrainNow;
  /** Something was said since the stop of where it is. */
  readonly answered: boolean;
}

/** Everything since the stop that stands now. */
function sinceStop(recent: readonly SessionEvent[]): readonly SessionEvent[] {
  const stop = recent.findLastIndex(({ input, outcome }) => input.do === 'stop-all' && outcome !== 'refused');
  return recent.slice(stop + 1);
}

/** The trains on the track, in the order of the document. */
export function rollOf(context: LineContext): readonly RollTrain[] {
  const since = sinceStop(context.recent);
  return trainsInOrder(context)
    .filter(([, train]) => train.placed && train.coupledInto === null)
    .map(([id, train]) => ({
      id,
      train,
      answered: since.some(({ input }) => 'train' in input && input.train === id),
    }));
}

/** It is where it is shown; null while its place is unknown. */
export function isThere({ id, train }: RollTrain): SessionInput | null {
  const [head] = train.trail;
  return head === undefined ? null : { do: 'train-at', train: id, ...head };
}

/** After a stop: every knob that nobody has spoken of since. */
export const knobsLeft = ({ state, recent }: LineContext): readonly SessionInput[] =>
  asShownSince(state, sinceStop(recent));

/** What "as shown" says now: while stopped the next train of the roll call, then every knob; at other times the knobs that are presumed. */
export function shownNow(context: LineContext): readonly SessionInput[] {
  const { state } = context;
  if (state.phase !== 'stopped') return asShown(state);
  const next = rollOf(context).find((one) => !one.answered && isThere(one) !== null);
  const there = next === undefined ? null : isThere(next);
  return there === null ? knobsLeft(context) : [there];
}
