/** Names for key strokes, the same on every keyboard: the keypad by where the key is, all others by what they mean. */

export type Stroke = string;

export interface KeyPressed {
  readonly key: string;
  readonly code: string;
  readonly shiftKey: boolean;
  readonly ctrlKey: boolean;
  readonly altKey: boolean;
  readonly metaKey: boolean;
}

const isModifier = (key: string): boolean =>
  ['Shift', 'Control', 'Alt', 'Meta', 'AltGraph', 'CapsLock', 'NumLock'].includes(key);

/**
 * The name of a stroke: `Numpad1` (whatever Num Lock says), `F1`, `Shift+F1`, `Space`, `Ctrl+k`.
 *
 * @returns undefined for a modifier alone
 */
export function strokeOf(pressed: KeyPressed): Stroke | undefined {
  if (isModifier(pressed.key)) return undefined;
  const onKeypad = pressed.code.startsWith('Numpad');
  const name = onKeypad ? pressed.code : pressed.key === ' ' ? 'Space' : pressed.key;
  // Shift is part of what a printable key means already, and on the keypad some systems report it with Num Lock.
  const counted = pressed.shiftKey && !onKeypad && name.length > 1;
  return [
    ...(pressed.ctrlKey ? ['Ctrl'] : []),
    ...(pressed.altKey ? ['Alt'] : []),
    ...(pressed.metaKey ? ['Meta'] : []),
    ...(counted ? ['Shift'] : []),
    name,
  ].join('+');
}

/** Whether a stroke writes a letter: those always go to the entry line and can be no act. */
export const isPrintable = (stroke: Stroke): boolean => [...stroke].length === 1;

const KEYPAD_SIGNS: Readonly<Record<string, string>> = {
  NumpadAdd: '+',
  NumpadSubtract: '-',
  NumpadMultiply: '*',
  NumpadDivide: '/',
  NumpadDecimal: '.',
  NumpadEnter: 'Enter',
};

/** A stroke as it is written on the screen: "keypad 1", "Shift+F1". */
export function strokeWords(stroke: Stroke): string {
  const parts = stroke.split('+');
  const last = parts.at(-1) ?? '';
  const words = last.startsWith('Numpad')
    ? `keypad ${KEYPAD_SIGNS[last] ?? last.slice('Numpad'.length)}`
    : last;
  return [...parts.slice(0, -1), words].join('+');
}
