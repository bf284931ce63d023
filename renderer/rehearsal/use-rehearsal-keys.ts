/** Keys of the Rehearsal wherever the hands are: Ctrl+Z takes back, Ctrl+Backspace discards it (and Ctrl+Z brings it back), Esc ends what the planner is at. In a field that is typed in they are the field's own. */
import { useEffect, useRef } from 'react';
import type { Rehearsal } from './use-rehearsal.ts';
import { stopWork } from './working.tsx';

interface HeadActs {
  readonly takeBack: () => void;
  readonly discard: () => void;
}

export function useRehearsalKeys(rehearsal: Rehearsal, acts: HeadActs): void {
  const now = useRef({ rehearsal, acts });
  now.current = { rehearsal, acts };
  useEffect(() => {
    const onKeyDown = (event: KeyboardEvent) => {
      const { key, ctrlKey, metaKey, altKey, shiftKey, repeat, target } = event;
      if (key === 'Escape') return stopWork(now.current.rehearsal);
      if (!(ctrlKey || metaKey) || altKey || shiftKey || target instanceof HTMLInputElement) return;
      const { takeBack, discard } = now.current.acts;
      const act = key === 'Backspace' && !repeat ? discard : key.toLowerCase() === 'z' ? takeBack : null;
      if (act === null) return;
      event.preventDefault();
      act();
    };
    window.addEventListener('keydown', onKeyDown);
    return () => window.removeEventListener('keydown', onKeyDown);
  }, []);
}
