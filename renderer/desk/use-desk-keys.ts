/** Brings the keyboard to the Desk: every key that no other control wants is read, wherever the focus is. */
import { type RefObject, useEffect, useRef } from 'react';
import { useConsole } from '../console/use-console.tsx';
import { actsByStroke } from '../keys/acts.ts';
import { FRESH_KEYS, HOLD_MS, type KeyDoes, type KeyMemory, readKey } from './key-reader.ts';
import type { Desk } from './use-desk.ts';

/** Keys of another control (a field, the board, an open list) are its own. */
function belongsElsewhere(event: KeyboardEvent, line: HTMLInputElement | null): boolean {
  const { target } = event;
  if (event.defaultPrevented) return true;
  if (!(target instanceof Element) || target === line || target === document.body) return false;
  if (target.closest('input, textarea, select, [role="combobox"]') !== null) return true;
  const pressesIt = ['Enter', ' '].includes(event.key) && event.code !== 'NumpadEnter';
  return pressesIt && target.closest('button, a, [role="button"]') !== null;
}

function doKey(does: KeyDoes, desk: Desk, line: HTMLInputElement | null): void {
  switch (does.kind) {
    case 'act':
      desk.act(does.act);
      break;
    case 'options':
      if (does.move === 'take') desk.takePicked();
      else desk.movePick(does.move === 'next' ? 1 : -1);
      break;
    case 'escape':
      desk.leave();
      break;
    case 'submit':
      desk.submit();
      // It stays in sight, and the next line is typed over it, not on from it.
      if (desk.reading.kind === 'expected' && desk.reading.isUnknown === true) line?.select();
      break;
    case 'complete': {
      const [first] = desk.completions;
      if (first !== undefined) desk.changeLine(first.line);
      break;
    }
    case 'tell':
      desk.tell(does.says);
      break;
    case 'type':
      line?.focus();
      break;
    case 'pass':
    case 'ignore':
      break;
  }
}

export function useDeskKeys(desk: Desk, input: RefObject<HTMLInputElement | null>): void {
  const overrides = useConsole(({ settings }) => settings.keys);
  const now = useRef(desk);
  now.current = desk;
  const memory = useRef<KeyMemory>(FRESH_KEYS);
  const line = useRef(desk.line);
  if (line.current !== desk.line) {
    line.current = desk.line;
    memory.current = { ...memory.current, editedAt: performance.now() };
  }

  useEffect(() => {
    const acts = actsByStroke(overrides);
    let held: number | undefined;
    const letGo = () => {
      window.clearTimeout(held);
      held = undefined;
    };
    const onKeyDown = (event: KeyboardEvent) => {
      if (event.key === 'Escape' && !event.repeat)
        held ??= window.setTimeout(() => now.current.act('stop-all'), HOLD_MS);
      if (belongsElsewhere(event, input.current)) return;
      const { key, code, shiftKey, ctrlKey, altKey, metaKey, repeat } = event;
      const at = performance.now();
      const { offer, optionAt, line: typed, locked } = now.current;
      const scene = {
        locked,
        lineEmpty: typed.trim() === '',
        options: offer !== null,
        optionPicked: optionAt !== null,
      };
      const read = readKey(
        memory.current,
        { key, code, shiftKey, ctrlKey, altKey, metaKey, repeat, at },
        scene,
        acts,
      );
      memory.current = read.memory;
      if (read.does.kind !== 'type' && read.does.kind !== 'pass') event.preventDefault();
      doKey(read.does, now.current, input.current);
    };
    const onKeyUp = (event: KeyboardEvent) => {
      if (event.key === 'Escape') letGo();
    };
    window.addEventListener('keydown', onKeyDown);
    window.addEventListener('keyup', onKeyUp);
    window.addEventListener('blur', letGo);
    return () => {
      letGo();
      window.removeEventListener('keydown', onKeyDown);
      window.removeEventListener('keyup', onKeyUp);
      window.removeEventListener('blur', letGo);
    };
  }, [overrides, input]);
}
