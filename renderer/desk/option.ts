/** What is offered to be done: each in a few words, taken by touch, or by arrows and Enter. */
import type { Proposal } from './entry-line/reading.ts';

export interface Option {
  readonly says: string;
  readonly does:
    | Proposal['act']
    /** Leaves it: the refusal goes, and an ask stays. */
    | { readonly kind: 'leave' }
    /** A line that needs a word or a number more: it is put into the entry line. */
    | { readonly kind: 'type'; readonly line: string }
    /** Another screen, where the reason is mended. */
    | { readonly kind: 'go'; readonly address: string };
}

/** What is done after a key, a touch or a line: something at once, something to choose from, or a word why not. */
export type Doing =
  | { readonly kind: 'do'; readonly option: Option }
  | { readonly kind: 'choose'; readonly says: string; readonly options: readonly Option[] }
  | { readonly kind: 'tell'; readonly says: string }
  | { readonly kind: 'later'; readonly key: string }
  | { readonly kind: 'say-again' }
  | { readonly kind: 'stop' }
  | { readonly kind: 'lock' };

/** Why nothing is offered any more. */
export const ENDED = 'The evening has ended: nothing more is said in it.';

/** Where the phase of two supplies is measured. */
export const PHASE_CHECK = '#/power-room/phase';

export const optionOf = ({ says, act }: Proposal): Option => ({ says, does: act });
export const tell = (says: string): Doing => ({ kind: 'tell', says });

/** Where arrows begin among options: at the first that does something, since leaving it needs no key. */
export function firstPick(options: readonly Option[]): number {
  const doing = options.findIndex(({ does }) => does.kind !== 'leave');
  return Math.max(doing, 0);
}

/** One thing to do is done; several are a list. */
export function doingOf(options: readonly Option[], says: string, none: string): Doing {
  const [only, ...others] = options;
  if (only === undefined) return tell(none);
  return others.length === 0 ? { kind: 'do', option: only } : { kind: 'choose', says, options };
}
