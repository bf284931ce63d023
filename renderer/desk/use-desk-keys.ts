/** The keys of the Desk: printable ones go to the entry line; acts are on the keypad by code and on keys that print nothing. */
import { type RefObject, useEffect, useRef } from 'react';
import { useConsole } from '../console/use-console.tsx';
import { type ActName, actsByStroke } from '../keys/acts.ts';
import { isPrintable, strokeOf } from '../keys/strokes.ts';
import type { Desk } from './use-desk.ts';

const REPEAT_MS = 250;
const HELD_MS = 700;
const TWICE_MS = 1500;
const ON_EMPTY_LINE: readonly ActName[] = ['throw-done', 'cab-throws-done', 'read-back', 'retract'];

/** Keys of other controls (a field, a button, a list) are theirs. */
function belongsElsewhere(event: KeyboardEvent, line: HTMLInputElement | null): boolean {
  const target = event.target;
  if (!(target instanceof Element) || target === line || target === document.body) return false;
  if (event.code.startsWith('Numpad') || /^F\d+$/.test(event.key))
    return target.matches('input, textarea, select');
  const onControl = target.matches('button, a, [role=button], input, textarea, select');
  return (
    onControl &&
    ['Enter', ' ', 'Tab', 'ArrowUp', 'ArrowDown', 'ArrowLeft', 'ArrowRight', 'Backspace'].includes(event.key)
  );
}

export function useDeskKeys(desk: Desk, input: RefObject<HTMLInputElement | null>): void {
  const overrides = useConsole(({ settings }) => settings.keys);
  const held = useRef<{
    escapeAt: number | null;
    lastAct: string;
    lastAt: number;
    callDigit: boolean;
    backAt: number;
  }>({
    escapeAt: null,
    lastAct: '',
    lastAt: 0,
    callDigit: false,
    backAt: 0,
  });
  const now = useRef(desk);
  now.current = desk;

  useEffect(() => {
    const acts = actsByStroke(overrides);
    const fire = (name: ActName, at: number): void => {
      const { current } = held;
      if (current.lastAct === name && at - current.lastAt < REPEAT_MS) return;
      current.lastAct = name;
      current.lastAt = at;
      now.current.act(name);
    };
    /** Arrows, Enter and Esc on a refusal with ways out; true when the key was one of those. */
    const onRefusal = (event: KeyboardEvent): boolean => {
      const { refused, ways, chosen, setChosen, takeWay, line } = now.current;
      if (refused === null || ways.length === 0 || line !== '') return false;
      if (event.key === 'ArrowRight' || event.key === 'ArrowDown') setChosen((chosen + 1) % ways.length);
      else if (event.key === 'ArrowLeft' || event.key === 'ArrowUp')
        setChosen((chosen + ways.length - 1) % ways.length);
      else if (event.key === 'Enter' && event.code !== 'NumpadEnter') {
        const way = ways[chosen];
        if (way !== undefined) takeWay(way);
      } else return false;
      return true;
    };
    const onEscape = (event: KeyboardEvent): void => {
      if (!event.repeat) held.current.escapeAt = event.timeStamp;
      const since = held.current.escapeAt;
      if (since !== null && event.timeStamp - since > HELD_MS) {
        held.current.escapeAt = null;
        fire('stop-all', event.timeStamp);
      } else if (!event.repeat) {
        now.current.dismiss();
        now.current.setLine('');
      }
    };
    const onKeyDown = (event: KeyboardEvent): void => {
      if (belongsElsewhere(event, input.current)) return;
      const empty = now.current.line === '';
      if (event.key === 'Escape') return onEscape(event);
      if (onRefusal(event)) return event.preventDefault();
      const stroke = strokeOf(event);
      if (stroke === undefined) return;
      if (held.current.callDigit && /^(Numpad)?[1-6]$/.test(stroke)) {
        held.current.callDigit = false;
        event.preventDefault();
        return fire(`call-${stroke.slice(-1)}` as ActName, event.timeStamp);
      }
      held.current.callDigit = false;
      const act = acts.get(stroke);
      if (act !== undefined && (!ON_EMPTY_LINE.includes(act) || empty || stroke.startsWith('Numpad'))) {
        event.preventDefault();
        if (event.repeat) return;
        if (act === 'call') {
          held.current.callDigit = true;
          now.current.setProblem('A cab calls: its digit.');
        } else if (act === 'retract') {
          if (event.timeStamp - held.current.backAt < TWICE_MS) fire(act, event.timeStamp);
          else now.current.setProblem('Backspace again takes the last report back.');
          held.current.backAt = event.timeStamp;
        } else fire(act, event.timeStamp);
        return;
      }
      if (isPrintable(stroke) && !event.ctrlKey && !event.altKey && !event.metaKey) input.current?.focus();
    };
    const onKeyUp = (event: KeyboardEvent): void => {
      if (event.key === 'Escape') held.current.escapeAt = null;
    };
    window.addEventListener('keydown', onKeyDown);
    window.addEventListener('keyup', onKeyUp);
    return () => {
      window.removeEventListener('keydown', onKeyDown);
      window.removeEventListener('keyup', onKeyUp);
    };
  }, [overrides, input]);
}
