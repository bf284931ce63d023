/**
 * The entry line: `line = train "to" dest ["by" blocks] ["over"] ["back" n] ["joining" train] | train report | thing position | word …`.
 * The first word decides; a number is a train first, a block after to, in, clear, at; what is ambiguous gives a list, never a guess.
 */

import { isPlainOrder, sessionInput } from '../../../shared-model/session/input.ts';
import { bareForms, bareWordForms } from './bare-forms.ts';
import type { Form } from './form.ts';
import { fitSlots, meansWord, type Stuck, type Words, wordsOf } from './match-slots.ts';
import { moveForms } from './move-forms.ts';
import { type LineAct, type LineContext, type Proposal, type Reading, send } from './reading.ts';
import type { Said } from './said.ts';
import { slotWords } from './slots.ts';
import { thingForms } from './thing-forms.ts';
import { small, type Thing, thingsOf } from './things.ts';
import { trainForms } from './train-forms.ts';
import { wordForms } from './word-forms.ts';

const forms: readonly Form[] = [...moveForms, ...trainForms, ...thingForms, ...bareForms];
const worded: readonly Form[] = [...wordForms, ...bareWordForms];

const startsWith = ({ slots }: Form, word: string): boolean =>
  slots[0]?.is === 'word' && slots[0].words.includes(small(word));

/** The forms that a line may have: those of its first word if it is one of the grammar's, else those that begin with a thing, or with a word cut short. */
export function formsFor({ tokens }: Words): readonly Form[] {
  const first = tokens[0] ?? '';
  const begun = worded.filter((form) => startsWith(form, first));
  if (begun.length > 0) return begun;
  const shortened = worded.filter(
    ({ slots }) => slots[0]?.is === 'word' && meansWord(slots[0].words, small(first)),
  );
  return [...forms, ...shortened];
}

interface Filled {
  readonly form: Form;
  readonly said: Said;
}

/** The place where the line stopped making sense: as far on as any form got. */
export function farthest(stuck: readonly Stuck[]): readonly Stuck[] {
  const at = Math.max(...stuck.map((one) => one.at));
  return stuck.filter((one) => one.at === at);
}

function expectedWords(words: Words, stuck: readonly Stuck[]): string {
  const here = farthest(stuck);
  const at = here[0]?.at ?? 0;
  const expected = [...new Set(here.flatMap(({ slot }) => (slot === null ? [] : [slotWords(slot)])))];
  const typed = words.tokens[at];
  const none = at === 0 ? 'is no train, knob, turnout, cab, block or word known here' : 'does not fit here';
  const head = typed === undefined ? '' : `"${typed}" ${none}. `;
  const rest = expected.length === 0 ? 'The line ends before that.' : `Expected ${expected.join(', ')}.`;
  return at === 0 ? head.trim() : `${head}${rest}`;
}

const sameAct = (one: Proposal, other: Proposal): boolean =>
  JSON.stringify(one.act) === JSON.stringify(other.act);

/**
 * Reads a line.
 *
 * @returns what Enter would do, a list where several things fit equally well, or a sentence with what was expected
 */
export function readTyped(context: LineContext, line: string): Reading {
  return readOverride(context, line) ?? readPlain(context, line);
}

/** `override no other way: 7 to 8`: the order is typed with its reason, whether it was refused before or not. */
function readOverride(context: LineContext, line: string): Reading | null {
  const [, why, rest] = /^\s*override\s+(.+?)\s*:\s+(.+)$/i.exec(line) ?? [];
  if (why === undefined || rest === undefined) return null;
  const inner = readPlain(context, rest);
  const orders = (
    inner.kind === 'one' ? [inner.proposal] : inner.kind === 'several' ? inner.proposals : []
  ).flatMap(({ says, act }): readonly Proposal[] => {
    const [only, ...more] = act.kind === 'send' ? act.items : [];
    if (only === undefined || more.length > 0 || !isPlainOrder(only.input)) return [];
    return [send(`override: ${says}`, { do: 'override', why, order: only.input })];
  });
  const [first, ...others] = orders;
  if (first === undefined) return null;
  return others.length === 0 ? { kind: 'one', proposal: first } : { kind: 'several', proposals: orders };
}

function readPlain(context: LineContext, line: string): Reading {
  const words = wordsOf(line);
  if (words.tokens.length === 0) return { kind: 'empty' };
  return readWords(context, words, thingsOf(context.railroad, context.state));
}

function readWords(context: LineContext, words: Words, things: readonly Thing[]): Reading {
  const fits = formsFor(words).map((form) => ({ form, ...fitSlots(things, words, form.slots) }));
  const filled = fits.flatMap(({ form, whole }) => whole.map((said): Filled => ({ form, said })));
  if (filled.length === 0) {
    const stuck = fits.flatMap((fit) => fit.stuck);
    const isUnknown = (farthest(stuck)[0]?.at ?? 0) === 0;
    return { kind: 'expected', says: expectedWords(words, stuck), isUnknown };
  }
  const nearest = Math.min(...filled.map(({ said }) => said.distance));
  const meant = filled
    .filter(({ said }) => said.distance === nearest)
    .map(({ form, said }) => form.mean(said, context));
  const proposals = meant.flatMap((one) => (typeof one === 'string' ? [] : one));
  const different = proposals.filter(
    (one, index) => proposals.findIndex((other) => sameAct(one, other)) === index,
  );
  const [only, ...others] = different;
  if (only === undefined)
    return { kind: 'expected', says: meant.find((one) => typeof one === 'string') ?? '' };
  const cannot = different.map(({ act }) => whyNot(act)).find((why) => why !== null);
  if (cannot !== undefined && cannot !== null) return { kind: 'expected', says: cannot };
  return others.length === 0 ? { kind: 'one', proposal: only } : { kind: 'several', proposals: different };
}

/** Why an act cannot even be sent: a number or a text beyond what is kept. Said while the line is there to be mended. */
function whyNot(act: LineAct): string | null {
  if (act.kind !== 'send') return null;
  for (const { input } of act.items) {
    const [issue] = sessionInput.safeParse(input).error?.issues ?? [];
    if (issue === undefined) continue;
    const field = issue.path.join(' ');
    const value = issue.path.reduce<unknown>(
      (part, name) => (part as Readonly<Record<PropertyKey, unknown>>)[name],
      input,
    );
    const long = typeof value === 'string' ? ` It has ${value.length}.` : '';
    return `The ${field} cannot be taken: ${issue.message}.${long} Nothing is lost: mend the line.`;
  }
  return null;
}
