/** Lines about an authority or a refused order: `right`, `annul 7 derailed`, `override I have looked`. */
import type { AuthorityId, TrainId } from '../../../shared-model/ids.ts';
import { authorityOf } from '../../../shared-model/session/facts/authorities.ts';
import type { PlainOrder } from '../../../shared-model/session/input.ts';
import { waitingReadBacks } from '../read-backs.ts';
import { type Form, form, plainForm } from './form.ts';
import { send } from './reading.ts';
import { maybe, text, thing, train, word } from './slots.ts';
import { why, whyOf } from './why.ts';

/** An authority by its number, for one that has no train left or waits for nothing. */
const numbered = thing('authority', ['authority'], 'an authority');

const rightByNumber = plainForm([word('right'), numbered], (said) => ({
  says: `${said.thing('authority').label} was read back right`,
  input: { do: 'acknowledge', authority: said.id<AuthorityId>('authority') },
}));

const right = form([word('right'), maybe(train())], (said, { state }) => {
  const waiting = waitingReadBacks(state).filter(
    ({ authority }) => !said.has('train') || authority.train === said.id('train'),
  );
  if (waiting.length === 0) return 'Nothing waits to be read back.';
  return waiting.map(({ id, authority }) =>
    send(`${state.trains[authority.train]?.name ?? authority.train} read back right`, {
      do: 'acknowledge',
      authority: id,
    }),
  );
});

const annul = form([word('annul'), train(), why], (said, { state }) => {
  const held = authorityOf(state, said.id<TrainId>('train'));
  const label = said.thing('train').label;
  return held === null
    ? `${label} has no authority.`
    : [
        send(`annul ${label}'s authority`, {
          do: 'annul',
          authority: held.id,
          why: whyOf(said, 'no reason given'),
        }),
      ];
});

const annulByNumber = plainForm([word('annul'), numbered, why], (said) => ({
  says: `annul ${said.thing('authority').label}`,
  input: {
    do: 'annul',
    authority: said.id<AuthorityId>('authority'),
    why: whyOf(said, 'no reason given'),
  },
}));

/** The newest refused order, carried out all the same. */
const override = form([word('override'), text('why', 'why')], (said, { recent }) => {
  const refused = recent.findLast(({ outcome }) => outcome === 'refused');
  return refused === undefined
    ? 'No order was refused.'
    : [
        send(`override the refusal of: ${refused.input.do.replaceAll('-', ' ')}`, {
          do: 'override',
          why: said.text('why'),
          order: refused.input as PlainOrder,
        }),
      ];
});

export const authorityForms: readonly Form[] = [right, rightByNumber, annul, annulByNumber, override];
