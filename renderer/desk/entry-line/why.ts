/** The reason that a line may end with. */
import type { Said } from './said.ts';
import { maybe, text } from './slots.ts';

export const why = maybe(text('why', 'why'));
export const whyOf = (said: Said, otherwise: string): string =>
  said.has('why') ? said.text('why') : otherwise;
