/** What a line is made of: the slots of its form, one after the other. The same slots read a line, say what is expected, and complete it. */
import type { ThingKind } from './things.ts';

export interface ThingSlot {
  readonly is: 'thing';
  readonly as: string;
  readonly kinds: readonly ThingKind[];
  readonly what: string;
  /** Only by its whole mark or name, since free words follow. */
  readonly marksOnly?: boolean;
}

export type Slot =
  /** A word of the grammar, whole or begun; `whole`: never begun, since what it does is not taken back. */
  | { readonly is: 'word'; readonly words: readonly [string, ...string[]]; readonly whole?: boolean }
  | ThingSlot
  /** Several, parted by commas. */
  | {
      readonly is: 'things';
      readonly as: string;
      readonly kinds: readonly ThingKind[];
      readonly what: string;
    }
  /** Off, or a cab by its number. */
  | { readonly is: 'position'; readonly as: string }
  /** One of a few answers, each by the words it may be said with; one letter is enough where it is alone. */
  | {
      readonly is: 'answer';
      readonly as: string;
      readonly answers: Readonly<Record<string, readonly string[]>>;
      readonly what: string;
    }
  | { readonly is: 'number'; readonly as: string; readonly what: string; readonly unit: Unit }
  /** Hours and minutes: 6:42. */
  | { readonly is: 'time'; readonly as: string; readonly what: string }
  /** One word as it is typed. */
  | { readonly is: 'name'; readonly as: string; readonly what: string }
  /** Everything up to what follows (mostly the end of the line), as it is typed. */
  | { readonly is: 'text'; readonly as: string; readonly what: string }
  /** Each of them once or not at all, in any order. */
  | { readonly is: 'options'; readonly options: readonly (readonly Slot[])[] };

/** What a number counts; a length may be written 900, 900mm, 36in or 3ft. */
export type Unit = 'mm' | 'A' | 'V' | 'times' | 'entry';

export const word = (...words: readonly [string, ...string[]]): Slot => ({ is: 'word', words });
export const wholeWord = (one: string): Slot => ({ is: 'word', words: [one], whole: true });
export const thing = (as: string, kinds: readonly ThingKind[], what: string): ThingSlot => ({
  is: 'thing',
  as,
  kinds,
  what,
});
export const train = (as = 'train'): ThingSlot => thing(as, ['train'], 'a train');
export const block = (as = 'block'): ThingSlot => thing(as, ['block'], 'a block');
export const blocks = (as = 'blocks'): Slot => ({ is: 'things', as, kinds: ['block'], what: 'blocks' });
export const destination = (as = 'to'): ThingSlot =>
  thing(as, ['block', 'place', 'edge'], 'a block or a place');
export const text = (as: string, what: string): Slot => ({ is: 'text', as, what });
export const name = (as: string, what: string): Slot => ({ is: 'name', as, what });
export const number = (as: string, what: string, unit: Unit): Slot => ({ is: 'number', as, what, unit });
export const options = (...list: readonly (readonly Slot[])[]): Slot => ({ is: 'options', options: list });
export const maybe = (...slots: readonly Slot[]): Slot => options(slots);

/** What is expected at a slot, in words. */
export function slotWords(slot: Slot): string {
  switch (slot.is) {
    case 'word':
      return `"${slot.words[0]}"`;
    case 'thing':
    case 'things':
    case 'answer':
    case 'time':
    case 'name':
    case 'text':
    case 'number':
      return slot.what;
    case 'position':
      return 'off or a cab';
    case 'options':
      return slot.options.map((option) => (option[0] === undefined ? '' : slotWords(option[0]))).join(', ');
  }
}
