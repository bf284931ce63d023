import { describe, expect, it } from 'vitest';
import { ACT_KEYS, actsByStroke, SLOTS, withKey } from '../../../renderer/keys/acts.ts';
import { isPrintable, strokeOf, strokeWords } from '../../../renderer/keys/strokes.ts';

const pressed = (
  key: string,
  code: string,
  held: Partial<Record<'shiftKey' | 'ctrlKey' | 'altKey', boolean>> = {},
) => strokeOf({ key, code, shiftKey: false, ctrlKey: false, altKey: false, metaKey: false, ...held });

describe('a key stroke', () => {
  it('on the keypad is told by where the key is, whatever Num Lock says', () => {
    expect(pressed('1', 'Numpad1')).toBe('Numpad1');
    expect(pressed('End', 'Numpad1')).toBe('Numpad1');
    expect(pressed('End', 'Numpad1', { shiftKey: true })).toBe('Numpad1');
  });

  it('elsewhere is told by what it means', () => {
    expect(pressed('1', 'Digit1')).toBe('1');
    expect(pressed('F1', 'F1', { shiftKey: true })).toBe('Shift+F1');
    expect(pressed(' ', 'Space')).toBe('Space');
    expect(pressed(' ', 'Space', { shiftKey: true })).toBe('Shift+Space');
    expect(pressed('K', 'KeyK', { shiftKey: true })).toBe('K');
    expect(pressed('k', 'KeyK', { ctrlKey: true })).toBe('Ctrl+k');
  });

  it('is none while only a modifier is held', () => {
    expect(pressed('Shift', 'ShiftLeft', { shiftKey: true })).toBeUndefined();
  });

  it('is said in words', () => {
    expect(strokeWords('Numpad9')).toBe('keypad 9');
    expect(strokeWords('NumpadAdd')).toBe('keypad +');
    expect(strokeWords('Shift+F1')).toBe('Shift+F1');
  });
});

describe('the keys of the acts', () => {
  it('are for one hand: every act has a key that is pressed alone, or two one after the other', () => {
    const alone = (stroke: string | null): boolean =>
      stroke !== null && !/^(Shift|Ctrl|Alt|Meta)\+/.test(stroke);
    const chords = ACT_KEYS.filter((row) => !SLOTS.some((slot) => alone(row[slot]))).map(({ act }) => act);
    // A cab calls: keypad 7, then its digit.
    expect(chords).toEqual([1, 2, 3, 4, 5, 6].map((cab) => `call-${cab}`));
    expect(ACT_KEYS.find(({ act }) => act === 'call')?.keypad).toBe('Numpad7');
  });

  it('are two to no act alike', () => {
    const strokes = ACT_KEYS.flatMap((row) => SLOTS.flatMap((slot) => row[slot] ?? []));
    expect(new Set(strokes).size).toBe(strokes.length);
    expect(actsByStroke({}).size).toBe(strokes.length);
  });

  it('never write a letter, since letters go to the entry line', () => {
    for (const stroke of actsByStroke({}).keys()) expect(isPrintable(stroke)).toBe(false);
    expect(isPrintable('k')).toBe(true);
  });

  it('are those of the design', () => {
    const acts = actsByStroke({});
    expect(acts.get('Numpad0')).toBe('throw-done');
    expect(acts.get('F6')).toBe('advance-6');
    expect(acts.get('Shift+F2')).toBe('call-2');
    expect(acts.get('Numpad9')).toBe('stop-all');
    expect(acts.get('Pause')).toBe('stop-all');
    expect(acts.get('NumpadEnter')).toBe('read-back');
  });

  it('can be changed; the act that had the key goes without', () => {
    const keys = withKey({}, 'alarm-seen', 'other', 'F8');
    expect(actsByStroke(keys).get('F8')).toBe('alarm-seen');
    expect([...actsByStroke(keys).values()].filter((act) => act === 'clear')).toHaveLength(1);
    expect(actsByStroke(keys).get('End')).toBeUndefined();
  });

  it('can be taken away', () => {
    expect(actsByStroke(withKey({}, 'alarm-seen', 'other', null)).has('End')).toBe(false);
  });
});
