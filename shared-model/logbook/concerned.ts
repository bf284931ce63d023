/** Which train an entry is about, and who had it. */
import type { ThrottleId, TrainId } from '../ids.ts';
import type { Reason } from '../refusal.ts';
import type { SessionEvent } from '../session/event.ts';
import type { SessionInput } from '../session/input.ts';
import type { SessionState } from '../session/state.ts';

/** The order itself where it was carried out against a refusal. */
export const plainInput = (input: SessionInput): SessionInput =>
  input.do === 'override' ? input.order : input;

/** The train that an input is about, or null. */
export function trainOf(state: SessionState, given: SessionInput): TrainId | null {
  const input = plainInput(given);
  if ('train' in input && input.train !== undefined) return input.train as TrainId;
  if ('authority' in input) return state.authorities[input.authority]?.train ?? null;
  return null;
}

/**
 * The train that a reason is about: that of the input; of an alarm where the input names none, the one it was raised for.
 *
 * @param after the state after the entry, which has the alarms that it raised
 */
export function trainOfReason(
  after: SessionState,
  { input, entry }: SessionEvent,
  reason: Reason,
): TrainId | null {
  const named = trainOf(after, input);
  if (named !== null) return named;
  const raised = after.alarms.find((alarm) => alarm.entry === entry && alarm.code === reason.code)?.train;
  const about = raised ?? reason.about.find((id) => id in after.trains);
  return about !== undefined && about in after.trains ? (about as TrainId) : null;
}

export interface Had {
  readonly cab: ThrottleId | null;
  readonly person: string | null;
}

/** The cab that has a train, and the person who has that cab. */
export function hadBy(state: SessionState, train: TrainId | null): Had {
  const cab = train === null ? null : (state.trains[train]?.cab ?? null);
  return { cab, person: cab === null ? null : (state.cabs[cab]?.person ?? null) };
}
