/** What the last word of a line may become. */
import { completionsOf } from './match.ts';
import { fitSlots, wordsOf } from './match-slots.ts';
import { farthest, formsFor } from './read-typed.ts';
import type { LineContext } from './reading.ts';
import type { Slot } from './slots.ts';
import { small, type Thing, thingsOf } from './things.ts';
import { wordForms } from './word-forms.ts';

export interface Completion {
  readonly label: string;
  /** The whole line with it. */
  readonly line: string;
}

const MOST = 8;

/** What is typed for a thing: its shortest mark, or its name where that is how it goes. */
export function typedFor(thing: Thing): string {
  if (thing.number !== null) return thing.number;
  if (thing.kind === 'place' || thing.kind === 'supply' || thing.kind === 'setting') return thing.label;
  return thing.marks.toSorted((a, b) => a.length - b.length)[0] ?? thing.id;
}

interface Candidate {
  readonly label: string;
  readonly typed: string;
}

function candidatesAt(things: readonly Thing[], slot: Slot, begun: string): readonly Candidate[] {
  const plain = (words: readonly string[]): readonly Candidate[] =>
    words.filter((word) => word.startsWith(begun)).map((word) => ({ label: word, typed: word }));
  switch (slot.is) {
    case 'word':
      return plain(slot.words.slice(0, begun === '' ? 1 : undefined));
    case 'answer':
      return plain(Object.values(slot.answers).flat());
    case 'position':
      return [
        ...plain(['off']),
        ...completionsOf(things, begun, ['cab']).map(({ id, label }) => ({ label, typed: id })),
      ];
    case 'thing':
    case 'things':
      return completionsOf(things, begun, slot.kinds).map((thing) => ({
        label: thing.label,
        typed: typedFor(thing),
      }));
    default:
      return [];
  }
}

/**
 * The completions of a line's last word (or of the next one, after a space), nearest first.
 *
 * @returns at most eight, none for an empty line
 */
export function completionsFor(context: LineContext, line: string): readonly Completion[] {
  if (line.trim() === '') return [];
  const things = thingsOf(context.railroad, context.state);
  const words = wordsOf(line);
  const begun = /[\s,]$/.test(line) ? '' : (words.tokens.at(-1) ?? '');
  const before = line.slice(0, line.length - begun.length);
  const kept = wordsOf(before);
  const firstWords: Candidate[] =
    kept.tokens.length > 0
      ? []
      : wordForms
          .flatMap(({ slots }) => (slots[0]?.is === 'word' ? [slots[0].words[0]] : []))
          .filter((word) => word.startsWith(small(begun)))
          .map((word) => ({ label: word, typed: word }));
  const stuck = formsFor(kept.tokens.length > 0 ? kept : words).flatMap(
    ({ slots }) => fitSlots(things, kept, slots).stuck,
  );
  const slots = farthest(stuck)
    .filter(({ at }) => at === kept.tokens.length)
    .flatMap(({ slot }) => (slot === null ? [] : [slot]));
  const all = [...firstWords, ...slots.flatMap((slot) => candidatesAt(things, slot, small(begun)))];
  return all
    .filter(({ typed }, index) => all.findIndex((other) => other.typed === typed) === index)
    .filter(({ typed }) => typed !== begun)
    .slice(0, MOST)
    .map(({ label, typed }) => ({ label, line: `${before}${typed} ` }));
}
