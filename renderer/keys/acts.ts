/** The acts of the Desk and the keys that do them. Each has one on the keypad, one elsewhere, or both; the user can change them all. */
import type { UserSettings } from '../../shared-model/wire/contract.ts';
import type { Stroke } from './strokes.ts';

/** The cabs that have keys of their own, by the order of the throttles. */
const CAB_NUMBERS = [1, 2, 3, 4, 5, 6] as const;
export type CabNumber = (typeof CAB_NUMBERS)[number];

export const SLOTS = ['keypad', 'other'] as const;
export type Slot = (typeof SLOTS)[number];

export type ActName =
  | `advance-${CabNumber}`
  | `call-${CabNumber}`
  | 'throw-done'
  | 'cab-throws-done'
  | 'read-back'
  | 'read-back-and-throws'
  | 'as-shown'
  | 'phase-check'
  | 'apply-setting'
  | 'say-again'
  | 'call'
  | 'grant-ask'
  | 'grant-far'
  | 'throw-later'
  | 'clear'
  | 'why'
  | 'stop-all'
  | 'retract'
  | 'alarm-seen'
  | 'alarm-mended'
  | 'lock';

export interface ActKeys {
  readonly act: ActName;
  readonly says: string;
  /** Null: none unless the user sets one. */
  readonly keypad: Stroke | null;
  readonly other: Stroke | null;
  /** When the key acts, if not always. */
  readonly when?: string;
}

const row = (
  act: ActName,
  says: string,
  keypad: Stroke | null,
  other: Stroke | null,
  when?: string,
): ActKeys => ({ act, says, keypad, other, ...(when === undefined ? {} : { when }) });

/** Every act with the keys it has at first. */
export const ACT_KEYS: readonly ActKeys[] = [
  ...CAB_NUMBERS.map((n) => row(`advance-${n}`, `Advance cab ${n}`, `Numpad${n}`, `F${n}`)),
  row('throw-done', 'Next throw done', 'Numpad0', 'Space', 'on an empty line'),
  row('cab-throws-done', 'All throws of that cab done', 'Numpad8', 'Shift+Space', 'on an empty line'),
  row('read-back', 'Read-back right', 'NumpadEnter', 'Enter', 'on an empty line'),
  row('read-back-and-throws', 'Read-back right, and all its throws done', null, 'PageDown'),
  row('say-again', 'Say it again', 'NumpadMultiply', 'Home'),
  row('call', 'A cab calls: then its digit', 'Numpad7', null),
  ...CAB_NUMBERS.map((n) => row(`call-${n}`, `Cab ${n} calls`, null, `Shift+F${n}`)),
  row(
    'grant-ask',
    'Grant the oldest free ask, the next order of the plan, or the way on as before',
    'NumpadAdd',
    'Insert',
  ),
  row('grant-far', 'The way on straight, as far as it is free: three blocks at most', null, 'F11'),
  row('throw-later', 'This throw later, or this order or way on', 'NumpadSubtract', 'Delete'),
  row('clear', 'Clear, as asked', 'NumpadDecimal', 'F8'),
  row('why', 'Why: last refusal, or what is next', 'NumpadDivide', 'F9'),
  row('as-shown', 'As shown: the knobs, or the next train of the roll call', null, 'PageUp'),
  row('phase-check', 'Measure the phase', null, 'F7'),
  row('apply-setting', 'Set all knobs: alone the first saved setting, else a choice', null, 'F10'),
  row('stop-all', 'CALL ALL STOP', 'Numpad9', 'Pause', 'Esc held does it too'),
  row('retract', 'Retract the last report', null, 'Backspace', 'twice, on an empty line'),
  row('alarm-seen', 'Alarm seen', null, 'End'),
  row('alarm-mended', 'What the alarm on top offers', null, 'F12'),
  row('lock', 'Lock the keys, and unlock them', null, 'ScrollLock'),
];

type Overrides = UserSettings['keys'];

/** The name under which the user's key for an act is kept. */
export const slotKey = (act: ActName, slot: Slot): string => `${act}.${slot}`;

/** The key of an act's slot as the user has it; null for none (kept as the empty word). */
export function keyOf(keys: ActKeys, slot: Slot, overrides: Overrides): Stroke | null {
  const own = overrides[slotKey(keys.act, slot)];
  if (own === undefined) return keys[slot];
  return own === '' ? null : own;
}

/** What each stroke does, with the user's changes. */
export function actsByStroke(overrides: Overrides): ReadonlyMap<Stroke, ActName> {
  return new Map(
    ACT_KEYS.flatMap((keys) =>
      SLOTS.flatMap((slot) => {
        const stroke = keyOf(keys, slot, overrides);
        return stroke === null ? [] : [[stroke, keys.act] as const];
      }),
    ),
  );
}

/**
 * The user's keys after giving an act another one. The act that had it before goes without.
 *
 * @param stroke null: no key
 */
export function withKey(overrides: Overrides, act: ActName, slot: Slot, stroke: Stroke | null): Overrides {
  const changed: Record<string, string> = { ...overrides };
  if (stroke !== null)
    for (const keys of ACT_KEYS)
      for (const one of SLOTS)
        if (keyOf(keys, one, overrides) === stroke) changed[slotKey(keys.act, one)] = '';
  changed[slotKey(act, slot)] = stroke ?? '';
  return changed;
}
