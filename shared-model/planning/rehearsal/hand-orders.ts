/**
 * What of a rehearsal by hand can be made real: its orders, in order. What was only reported in it did not happen, and what hands and
 * voices confirm (throws, read-backs) is confirmed when they have done it.
 */
import type { AuthorityId } from '../../ids.ts';
import type { SessionEvent } from '../../session/event.ts';
import { isObservation, type SessionInput, type Verb } from '../../session/input.ts';

/** Orders that say what hands have moved or voices have said, or that are about entries of the log that they were said in. */
const CONFIRMED_THERE: ReadonlySet<Verb> = new Set<Verb>([
  'turn-selector',
  'throw-turnout',
  'set-toggle',
  'apply-setting',
  'acknowledge',
  'advance',
  'retract',
  'alarm-seen',
]);

function isIntended(input: SessionInput): boolean {
  if (input.do === 'override') return isIntended(input.order);
  return !isObservation(input) && !CONFIRMED_THERE.has(input.do);
}

/**
 * The orders of a fork that can be made real.
 *
 * @param events of the fork since it was forked
 * @returns those that were carried out and not taken back, in order
 */
export function handOrders(events: readonly SessionEvent[]): readonly SessionEvent[] {
  const taken = new Set(
    events.flatMap(({ input, outcome }) =>
      input.do === 'retract' && outcome !== 'refused' ? [input.entry] : [],
    ),
  );
  return events.filter(
    ({ entry, input, outcome }) => outcome !== 'refused' && !taken.has(entry) && isIntended(input),
  );
}

/** The authorities of the fork by what they are called in the evening; those that it was forked with have the same name in both. */
export type AuthorityNames = ReadonlyMap<AuthorityId, AuthorityId>;

/**
 * An order of a fork as it is given in the evening: its authority has the number there that its grant got.
 *
 * @param granted authorities that the fork granted
 * @returns null where its authority was granted in the fork alone
 */
export function realOrder(
  { input }: SessionEvent,
  names: AuthorityNames,
  granted: ReadonlySet<AuthorityId>,
): SessionInput | null {
  if (input.do !== 'annul') return input;
  const authority = names.get(input.authority);
  if (authority !== undefined) return { ...input, authority };
  return granted.has(input.authority) ? null : input;
}

/** The authorities that events granted. */
export const grantedIn = (events: readonly SessionEvent[]): ReadonlySet<AuthorityId> =>
  new Set(
    events.flatMap(({ authority, outcome }) =>
      authority === undefined || outcome === 'refused' ? [] : [authority],
    ),
  );
