/**
 * What a key does at the Desk. Printable keys go to the entry line; acts are on the keypad by code and on keys that print nothing.
 * A plain function of what is remembered and what was pressed, so that it can be checked without a keyboard.
 */
import type { ActName } from '../keys/acts.ts';
import { isPrintable, type KeyPressed, type Stroke, strokeOf } from '../keys/strokes.ts';

/** The same act within this time is a key that bounces. */
export const REPEAT_MS = 250;
/** Escape held so long calls ALL STOP. */
export const HOLD_MS = 700;
/** The second of two keys has to come within this time. */
export const TWICE_MS = 2000;
/** A line that was emptied by Backspace is not taken for empty at once: the next Backspace may be one too many. */
export const EMPTIED_MS = 600;

export interface Pressed extends KeyPressed {
  /** The keyboard repeats it while it is held. */
  readonly repeat: boolean;
  /** Milliseconds of the page's clock. */
  readonly at: number;
}

export interface KeyMemory {
  readonly act: ActName | null;
  readonly actAt: number;
  /** Until when a digit means "cab n calls". */
  readonly callUntil: number;
  readonly backspaceAt: number;
  /** When the line was last changed. */
  readonly editedAt: number;
}

export const FRESH_KEYS: KeyMemory = {
  act: null,
  actAt: Number.NEGATIVE_INFINITY,
  callUntil: Number.NEGATIVE_INFINITY,
  backspaceAt: Number.NEGATIVE_INFINITY,
  editedAt: Number.NEGATIVE_INFINITY,
};

/** What the line and the band show at the moment. */
export interface KeyScene {
  /** The keys are locked: only unlocking and CALL ALL STOP are left. */
  readonly locked: boolean;
  readonly lineEmpty: boolean;
  /** Options stand in the band: the arrows go through them. */
  readonly options: boolean;
  /** One of them is picked: Enter takes it. */
  readonly optionPicked: boolean;
}

export type KeyDoes =
  | { readonly kind: 'act'; readonly act: ActName }
  | { readonly kind: 'options'; readonly move: 'next' | 'previous' | 'take' }
  | { readonly kind: 'escape' }
  | { readonly kind: 'submit' }
  | { readonly kind: 'complete' }
  | { readonly kind: 'tell'; readonly says: string }
  /** The line takes it. */
  | { readonly kind: 'type' }
  /** Nobody takes it; the browser may. */
  | { readonly kind: 'pass' }
  /** Taken, and nothing is done. */
  | { readonly kind: 'ignore' };

export interface KeyRead {
  readonly memory: KeyMemory;
  readonly does: KeyDoes;
}

/** Keys that edit a line while there is one, and act when it is empty; those of the keypad always act. */
const EDITING: readonly Stroke[] = ['Home', 'End', 'Delete', 'Backspace', 'Space', 'Shift+Space', 'Enter'];
const IGNORE: KeyDoes = { kind: 'ignore' };

function fire(memory: KeyMemory, act: ActName, { at, repeat }: Pressed): KeyRead {
  const bounced = repeat || (memory.act === act && at - memory.actAt < REPEAT_MS);
  if (bounced) return { memory, does: IGNORE };
  return { memory: { ...memory, act, actAt: at }, does: { kind: 'act', act } };
}

/** Arrows and Enter go through what the band offers. */
function optionMove(stroke: Stroke, { options, optionPicked, lineEmpty }: KeyScene): KeyDoes | null {
  if (!options) return null;
  if (stroke === 'ArrowDown' || (stroke === 'ArrowRight' && lineEmpty))
    return { kind: 'options', move: 'next' };
  if (stroke === 'ArrowUp' || (stroke === 'ArrowLeft' && lineEmpty))
    return { kind: 'options', move: 'previous' };
  return stroke === 'Enter' && optionPicked ? { kind: 'options', move: 'take' } : null;
}

function readBackspace(memory: KeyMemory, pressed: Pressed): KeyRead {
  const { at, repeat } = pressed;
  if (repeat || at - memory.editedAt < EMPTIED_MS || at - memory.backspaceAt < REPEAT_MS)
    return { memory, does: IGNORE };
  if (at - memory.backspaceAt <= TWICE_MS)
    return fire({ ...memory, backspaceAt: Number.NEGATIVE_INFINITY }, 'retract', pressed);
  return {
    memory: { ...memory, backspaceAt: at },
    does: { kind: 'tell', says: 'Backspace again takes the last report back.' },
  };
}

function readAct(memory: KeyMemory, act: ActName, stroke: Stroke, pressed: Pressed): KeyRead {
  if (act === 'call')
    return {
      memory: { ...memory, callUntil: pressed.at + TWICE_MS },
      does: { kind: 'tell', says: 'A cab calls: press its digit.' },
    };
  if (act === 'retract' && stroke === 'Backspace') return readBackspace(memory, pressed);
  return fire(memory, act, pressed);
}

/**
 * Reads one key.
 *
 * @param acts what each stroke does, with the user's changes
 */
export function readKey(
  memory: KeyMemory,
  pressed: Pressed,
  scene: KeyScene,
  acts: ReadonlyMap<Stroke, ActName>,
): KeyRead {
  const stroke = strokeOf(pressed);
  if (stroke === undefined) return { memory, does: { kind: 'pass' } };
  const act = acts.get(stroke);
  if (scene.locked)
    return act === 'stop-all' || act === 'lock' ? fire(memory, act, pressed) : { memory, does: IGNORE };
  if (stroke === 'Escape') return { memory, does: pressed.repeat ? IGNORE : { kind: 'escape' } };
  const digit = /^(?:Numpad|F)?([1-6])$/.exec(stroke)?.[1];
  if (digit !== undefined && pressed.at <= memory.callUntil)
    return fire({ ...memory, callUntil: FRESH_KEYS.callUntil }, `call-${digit}` as ActName, pressed);
  const move = optionMove(stroke, scene);
  if (move !== null) return { memory, does: move };
  const edits = !scene.lineEmpty && EDITING.includes(stroke);
  if (act !== undefined && !edits) return readAct(memory, act, stroke, pressed);
  if (stroke === 'Enter') return { memory, does: pressed.repeat ? IGNORE : { kind: 'submit' } };
  if (stroke === 'Tab' && !scene.lineEmpty) return { memory, does: { kind: 'complete' } };
  return { memory, does: { kind: isPrintable(stroke) || edits || stroke === 'Space' ? 'type' : 'pass' } };
}
