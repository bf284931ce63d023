/** `tag k6 loose knob by Kim`, `untag k6 by Kim`. */
import { DISPATCHER } from '../../../shared-model/session/dispatcher.ts';
import { type Form, form, plainForm } from './form.ts';
import { type LineContext, send } from './reading.ts';
import { maybe, text, thing, word } from './slots.ts';
import { small, type ThingKind } from './things.ts';

const TAGGABLE: readonly ThingKind[] = ['train', 'block', 'selector', 'turnout', 'toggle', 'cab', 'supply'];
const taggable = thing('thing', TAGGABLE, 'a thing');
/** "loose knob by Kim": why, and who put the tag there: a name of one word, or anybody who has a cab. */
function whyAndWho(words: string, { state }: LineContext): { readonly why: string; readonly by: string } {
  const people = Object.values(state.cabs).flatMap(({ person }) => person ?? []);
  const whole = people.find((person) => small(words).endsWith(` by ${small(person)}`));
  const by = whole ?? / by (\S+)$/i.exec(words)?.[1];
  const reason = by === undefined ? undefined : words.slice(0, -` by ${by}`.length);
  return reason === undefined || by === undefined ? { why: words, by: DISPATCHER } : { why: reason, by };
}

export const tagForms: readonly Form[] = [
  form([word('tag'), taggable, text('why', 'why it is out of service')], (said, context) => [
    send(`tag ${said.thing('thing').label} out of service`, {
      do: 'tag',
      thing: said.id('thing'),
      ...whyAndWho(said.text('why'), context),
    }),
  ]),
  plainForm([word('untag'), taggable, maybe(word('by'), text('by', 'who put it there'))], (said) => ({
    says: `${said.thing('thing').label} is back in service`,
    input: { do: 'untag', thing: said.id('thing'), by: said.has('by') ? said.text('by') : DISPATCHER },
  })),
];
