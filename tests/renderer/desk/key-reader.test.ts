/** The keyboard of the Desk: what goes to the line, what acts, what is a bounce, and what a locked keyboard still does. */
import { describe, expect, it } from 'vitest';
import {
  EMPTIED_MS,
  FRESH_KEYS,
  type KeyDoes,
  type KeyMemory,
  type KeyScene,
  type Pressed,
  REPEAT_MS,
  readKey,
  TWICE_MS,
} from '../../../renderer/desk/key-reader.ts';
import { actsByStroke } from '../../../renderer/keys/acts.ts';

const ACTS = actsByStroke({});
const EMPTY: KeyScene = { locked: false, lineEmpty: true, options: false, optionPicked: false };
const TYPING: KeyScene = { ...EMPTY, lineEmpty: false };

function pressed(key: string, at: number, more: Partial<Pressed> = {}): Pressed {
  const code = key.startsWith('Numpad') ? key : '';
  const plain = { shiftKey: false, ctrlKey: false, altKey: false, metaKey: false, repeat: false };
  return { key: code === '' ? key : key.slice(6), code, ...plain, at, ...more };
}

/** What each of several keys does, one after the other. */
function reads(
  keys: readonly Pressed[],
  scene: KeyScene = EMPTY,
  memory: KeyMemory = FRESH_KEYS,
): readonly KeyDoes[] {
  let now = memory;
  return keys.map((key) => {
    const read = readKey(now, key, scene, ACTS);
    now = read.memory;
    return read.does;
  });
}
const act = (name: string): KeyDoes => ({ kind: 'act', act: name }) as KeyDoes;

describe('keys that print', () => {
  it.each(['7', 'q', ',', '+', '-', '*'])('%s goes to the line, whatever is on the keypad', (key) => {
    expect(reads([pressed(key, 0)])).toEqual([{ kind: 'type' }]);
  });

  it('a space goes to the line once something is typed, and is the next throw done before', () => {
    expect(reads([pressed(' ', 0)], TYPING)).toEqual([{ kind: 'type' }]);
    expect(reads([pressed(' ', 0)])).toEqual([act('throw-done')]);
  });
});

describe('acts', () => {
  it.each([
    ['Numpad1', 'advance-1'],
    ['F6', 'advance-6'],
    ['Numpad0', 'throw-done'],
    ['Numpad8', 'cab-throws-done'],
    ['NumpadEnter', 'read-back'],
    ['NumpadMultiply', 'say-again'],
    ['NumpadAdd', 'grant-ask'],
    ['Insert', 'grant-ask'],
    ['NumpadSubtract', 'throw-later'],
    ['NumpadDecimal', 'clear'],
    ['F8', 'clear'],
    ['NumpadDivide', 'why'],
    ['F9', 'why'],
    ['Numpad9', 'stop-all'],
    ['Pause', 'stop-all'],
    ['End', 'alarm-seen'],
  ])('%s is %s on an empty line', (key, name) => {
    expect(reads([pressed(key, 0)])).toEqual([act(name)]);
  });

  it('of the keypad and of F keys act while a line is typed too; editing keys edit it', () => {
    expect(reads([pressed('Numpad9', 0), pressed('F2', 300)], TYPING)).toEqual([
      act('stop-all'),
      act('advance-2'),
    ]);
    for (const key of ['Home', 'End', 'Delete', 'Backspace'])
      expect(reads([pressed(key, 0)], TYPING)).toEqual([{ kind: 'type' }]);
  });

  it('that come again within 250 ms, or are repeated by a held key, are ignored', () => {
    expect(
      reads([
        pressed('Numpad1', 0),
        pressed('Numpad1', REPEAT_MS - 1),
        pressed('Numpad1', REPEAT_MS + 1, { repeat: true }),
        pressed('Numpad1', REPEAT_MS + 1),
      ]),
    ).toEqual([act('advance-1'), { kind: 'ignore' }, { kind: 'ignore' }, act('advance-1')]);
  });

  it('that are different may follow each other at once', () => {
    expect(reads([pressed('Numpad1', 0), pressed('Numpad0', 10)])).toEqual([
      act('advance-1'),
      act('throw-done'),
    ]);
  });

  it('may be on other keys', () => {
    const acts = actsByStroke({ 'stop-all.other': 'F13' });
    expect(readKey(FRESH_KEYS, pressed('F13', 0), EMPTY, acts).does).toEqual(act('stop-all'));
    expect(readKey(FRESH_KEYS, pressed('Pause', 0), EMPTY, acts).does).toEqual({ kind: 'pass' });
  });
});

describe('two keys that belong together', () => {
  it('keypad 7, then a digit: that cab calls', () => {
    expect(reads([pressed('Numpad7', 0), pressed('Numpad3', 500)])[1]).toEqual(act('call-3'));
    expect(reads([pressed('Numpad7', 0), pressed('3', 500)])[1]).toEqual(act('call-3'));
    expect(reads([pressed('Numpad7', 0), pressed('Numpad3', TWICE_MS + 1)])[1]).toEqual(act('advance-3'));
    expect(reads([pressed('F3', 0, { shiftKey: true })])).toEqual([act('call-3')]);
  });

  it('Backspace twice on an empty line takes the last report back', () => {
    const [first, second] = reads([pressed('Backspace', 1000), pressed('Backspace', 1400)]);
    expect(first).toMatchObject({ kind: 'tell' });
    expect(second).toEqual(act('retract'));
  });

  it('Backspace too late, too soon, or just after the line was emptied takes nothing back', () => {
    expect(reads([pressed('Backspace', 1000), pressed('Backspace', 1001 + TWICE_MS)])[1]).toMatchObject({
      kind: 'tell',
    });
    expect(reads([pressed('Backspace', 1000), pressed('Backspace', 1100)])[1]).toEqual({ kind: 'ignore' });
    const justEmptied = { ...FRESH_KEYS, editedAt: 1000 };
    expect(
      reads([pressed('Backspace', 1100), pressed('Backspace', 999 + EMPTIED_MS)], EMPTY, justEmptied),
    ).toEqual([{ kind: 'ignore' }, { kind: 'ignore' }]);
  });
});

describe('what the band offers', () => {
  const offered: KeyScene = { ...EMPTY, options: true };
  it('is gone through by the arrows and taken by Enter once one is picked', () => {
    expect(reads([pressed('ArrowRight', 0), pressed('ArrowUp', 10)], offered)).toEqual([
      { kind: 'options', move: 'next' },
      { kind: 'options', move: 'previous' },
    ]);
    expect(reads([pressed('Enter', 0)], { ...offered, optionPicked: true })).toEqual([
      { kind: 'options', move: 'take' },
    ]);
  });

  it('is not taken by Enter before one is picked: then it is the read-back', () => {
    expect(reads([pressed('Enter', 0)], offered)).toEqual([act('read-back')]);
  });

  it('leaves left and right to the line while one is typed', () => {
    expect(reads([pressed('ArrowLeft', 0)], { ...offered, lineEmpty: false })).toEqual([{ kind: 'pass' }]);
  });
});

describe('the line', () => {
  it('is entered, completed and left', () => {
    expect(reads([pressed('Enter', 0), pressed('Tab', 10), pressed('Escape', 20)], TYPING)).toEqual([
      { kind: 'submit' },
      { kind: 'complete' },
      { kind: 'escape' },
    ]);
  });

  it('leaves Tab to the browser while it is empty', () => {
    expect(reads([pressed('Tab', 0)])).toEqual([{ kind: 'pass' }]);
  });
});

describe('a locked keyboard', () => {
  it('still calls ALL STOP and unlocks, and nothing else', () => {
    const locked = { ...EMPTY, locked: true };
    expect(
      reads(
        [
          pressed('Numpad1', 0),
          pressed('q', 10),
          pressed('Escape', 20),
          pressed('Numpad9', 30),
          pressed('ScrollLock', 40),
        ],
        locked,
      ),
    ).toEqual([{ kind: 'ignore' }, { kind: 'ignore' }, { kind: 'ignore' }, act('stop-all'), act('lock')]);
  });
});
