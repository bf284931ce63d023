/** What can be said of a thing that was touched, in groups: every order and report about it without a keyboard. */
import type { SessionInput } from '../../../shared-model/session/input.ts';
import { confirmed } from '../confirmed.ts';
import { send } from '../entry-line/reading.ts';
import { type Option, optionOf } from '../option.ts';

export interface OfferGroup {
  readonly title: string;
  readonly options: readonly Option[];
}

export const offer = (says: string, ...inputs: readonly SessionInput[]): Option =>
  optionOf(send(says, ...inputs));
/** An order said after the hand. */
export const thrown = (says: string, order: SessionInput): Option => ({
  says,
  does: { kind: 'send', items: [confirmed(order)] },
});
/** A line that wants a word or a number more. */
export const typed = (says: string, line: string): Option => ({ says, does: { kind: 'type', line } });

/** Only groups that offer something. */
export const filled = (groups: readonly OfferGroup[]): readonly OfferGroup[] =>
  groups.filter(({ options }) => options.length > 0);
