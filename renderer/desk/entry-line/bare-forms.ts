/**
 * The shortest lines: a knob, a turnout or a toggle alone means what NEXT wants of it, else its other position (of a knob: off); a phase
 * check between the only two supplies needs no names. What Enter would do is shown, as of every line.
 */
import type { NodeId, SelectorId, ToggleId } from '../../../shared-model/ids.ts';
import type { SessionInput } from '../../../shared-model/session/input.ts';
import { pendingThrows } from '../next-act.ts';
import { throwItems } from '../throw-items.ts';
import { type Form, form } from './form.ts';
import { type LineContext, type Proposal, send } from './reading.ts';
import { number, thing, word } from './slots.ts';
import type { Thing } from './things.ts';

/** What NEXT wants of a thing now. */
function asNext(context: LineContext, { id, label }: Thing): Proposal | null {
  const pending = pendingThrows(context, []).find(
    ({ thrown }) => thrown.id === id && thrown.waitsFor.length === 0,
  );
  if (pending === undefined) return null;
  const { to } = pending.thrown;
  const there = to === true ? 'on' : to === false ? 'off' : to;
  return {
    says: `${label} to ${there}, as is next (after the hand)`,
    act: { kind: 'send', items: throwItems(pending) },
  };
}

/** Its other position, where it has one other. */
function other({ state }: LineContext, { kind, id }: Thing): SessionInput | null {
  if (kind === 'turnout') {
    const now = state.turnouts[id as NodeId]?.position;
    return { do: 'throw-turnout', turnout: id as NodeId, position: now === 'normal' ? 'reverse' : 'normal' };
  }
  if (kind === 'toggle')
    return { do: 'set-toggle', toggle: id as ToggleId, on: state.toggles[id as ToggleId]?.on !== true };
  return state.selectors[id as SelectorId]?.position === 'off'
    ? null
    : { do: 'turn-selector', selector: id as SelectorId, position: 'off' };
}

function positionWords(input: SessionInput): string {
  if ('position' in input) return String(input.position);
  return 'on' in input && input.on ? 'on' : 'off';
}

const bareThing = form(
  [thing('thing', ['selector', 'turnout', 'toggle'], 'a selector, a turnout or a toggle')],
  (said, context) => {
    const what = said.thing('thing');
    const next = asNext(context, what);
    if (next !== null) return [next];
    const input = other(context, what);
    if (input === null) return `${what.label} is off: say to which cab.`;
    // An order alone: so short a line never notes what it did not say, that the thing stands there all the same.
    return [send(`${what.label} to ${positionWords(input)}`, input)];
  },
);

/** "phase 18 18 .4". */
const phaseOfBoth = form(
  [
    word('phase'),
    number('voltsA', 'volts of the first', 'V'),
    number('voltsB', 'volts of the other', 'V'),
    number('voltsAcross', 'volts across', 'V'),
  ],
  (said, { railroad }) => {
    const [a, b, ...more] = railroad.document.supplies;
    if (a === undefined || b === undefined || more.length > 0) return 'Say which two supplies.';
    return [
      send(`measured: ${a.name} against ${b.name}`, {
        do: 'phase-measured',
        a: a.id,
        b: b.id,
        voltsA: said.number('voltsA'),
        voltsB: said.number('voltsB'),
        voltsAcross: said.number('voltsAcross'),
      }),
    ];
  },
);

export const bareForms: readonly Form[] = [bareThing];
/** It begins with a word of the grammar. */
export const bareWordForms: readonly Form[] = [phaseOfBoth];
