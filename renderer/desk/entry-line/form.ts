/** A form of line: its slots, and what is meant when they are filled. */
import type { SessionInput } from '../../../shared-model/session/input.ts';
import { type LineContext, type Proposal, send } from './reading.ts';
import type { Said } from './said.ts';
import type { Slot } from './slots.ts';

export interface Form {
  readonly slots: readonly Slot[];
  /** What the filled form means: one thing or several; or in words why it cannot be meant now. */
  readonly mean: (said: Said, context: LineContext) => readonly Proposal[] | string;
}

export const form = (slots: readonly Slot[], mean: Form['mean']): Form => ({ slots, mean });

/** A form that is one input and can always be meant. */
export const plainForm = (
  slots: readonly Slot[],
  mean: (said: Said) => { readonly says: string; readonly input: SessionInput },
): Form =>
  form(slots, (said) => {
    const { says, input } = mean(said);
    return [send(says, input)];
  });
