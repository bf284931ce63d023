/** Lines about a knob, a turnout, a toggle, a cab or a block: `k4 2` (may it be turned there?), `k4 is 3` (found so), `c2 Kim`, `5 is empty`. */
import type {
  BlockId,
  NodeId,
  SelectorId,
  ThrottleId,
  ToggleId,
  TrainId,
} from '../../../shared-model/ids.ts';
import type { TurnoutPosition } from '../../../shared-model/railroad/document.ts';
import type { SessionInput } from '../../../shared-model/session/input.ts';
import { type Form, form, plainForm } from './form.ts';
import { NO_POSITION } from './match-slots.ts';
import { send } from './reading.ts';
import type { Said } from './said.ts';
import { block, maybe, type Slot, text, thing, train, word } from './slots.ts';

/** The two lines about a knob: the order, which is refused before the hand moves, and the report of where it was found. */
function knobForms(
  subject: Slot,
  to: Slot,
  inputs: (said: Said) => {
    readonly order: SessionInput;
    /** Null: nothing can be found there. */
    readonly report: SessionInput | null;
    readonly says: string;
  },
): readonly Form[] {
  return [
    plainForm([subject, maybe(word('to')), to], (said) => {
      const { order, says } = inputs(said);
      return { says, input: order };
    }),
    form([subject, word('is'), to], (said) => {
      const { report, says } = inputs(said);
      return report === null
        ? 'Nothing can stand where nothing is wired.'
        : [send(`${says}, as found`, report)];
    }),
  ];
}

const selectorForms = knobForms(
  thing('selector', ['selector'], 'a selector'),
  { is: 'position', as: 'position' },
  (said) => {
    const selector = said.id<SelectorId>('selector');
    const typed = said.text('position');
    const position = typed === NO_POSITION ? null : (typed as ThrottleId | 'off');
    return {
      says: `${said.thing('selector').label} at ${position ?? 'a place that is not wired'}`,
      order: { do: 'turn-selector', selector, position },
      report: position === null ? null : { do: 'selector-stands-at', selector, position },
    };
  },
);

const turnoutForms = knobForms(
  thing('turnout', ['turnout'], 'a turnout'),
  {
    is: 'answer',
    as: 'position',
    answers: { normal: ['normal'], reverse: ['reverse'] },
    what: 'normal or reverse',
  },
  (said) => {
    const turnout = said.id<NodeId>('turnout');
    const position = said.text('position') as TurnoutPosition;
    return {
      says: `${said.thing('turnout').label} ${position}`,
      order: { do: 'throw-turnout', turnout, position },
      report: { do: 'turnout-stands-at', turnout, position },
    };
  },
);

const toggleForms = knobForms(
  thing('toggle', ['toggle'], 'a toggle'),
  { is: 'answer', as: 'on', answers: { on: ['on'], off: ['off'] }, what: 'on or off' },
  (said) => {
    const toggle = said.id<ToggleId>('toggle');
    const on = said.text('on') === 'on';
    return {
      says: `${said.thing('toggle').label} ${on ? 'on' : 'off'}`,
      order: { do: 'set-toggle', toggle, on },
      report: { do: 'toggle-stands-at', toggle, on },
    };
  },
);

const cab = thing('cab', ['cab'], 'a cab');
const cabOf = (said: Said): ThrottleId => said.id<ThrottleId>('cab');

const cabForms: readonly Form[] = [
  plainForm([cab, word('calls', 'call')], (said) => ({
    says: `${said.thing('cab').label} calls`,
    input: { do: 'call', cab: cabOf(said) },
  })),
  plainForm([cab, word('zero')], (said) => ({
    says: `${said.thing('cab').label}'s handle is at zero`,
    input: { do: 'handle-at-zero', cab: cabOf(said) },
  })),
  plainForm([cab, word('stop')], (said) => ({
    says: `call stop to ${said.thing('cab').label}`,
    input: { do: 'stop-called', cab: cabOf(said) },
  })),
  plainForm([cab, word('nobody', 'free', '-')], (said) => ({
    says: `nobody has ${said.thing('cab').label}`,
    input: { do: 'assign-cab', cab: cabOf(said), person: null },
  })),
  plainForm([{ ...cab, marksOnly: true }, text('person', 'who has it')], (said) => ({
    says: `${said.text('person')} has ${said.thing('cab').label}`,
    input: { do: 'assign-cab', cab: cabOf(said), person: said.text('person') },
  })),
];

const blockForms: readonly Form[] = [
  plainForm([block(), word('is'), word('empty', 'open', 'clear')], (said) => ({
    says: `settle ${said.thing('block').label}: empty`,
    input: { do: 'settle', block: said.id<BlockId>('block'), state: 'open' },
  })),
  // Of itself it is refused, since nothing says by what.
  plainForm([block(), word('is'), word('occupied')], (said) => ({
    says: `settle ${said.thing('block').label}: occupied`,
    input: { do: 'settle', block: said.id<BlockId>('block'), state: 'occupied' },
  })),
  plainForm([block(), word('is'), train()], (said) => ({
    says: `settle ${said.thing('block').label}: ${said.thing('train').label} is in it`,
    input: {
      do: 'settle',
      block: said.id<BlockId>('block'),
      state: 'occupied',
      train: said.id<TrainId>('train'),
    },
  })),
];

export const thingForms: readonly Form[] = [
  ...selectorForms,
  ...turnoutForms,
  ...toggleForms,
  ...cabForms,
  ...blockForms,
];
