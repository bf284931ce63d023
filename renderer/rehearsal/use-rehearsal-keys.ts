/** Keys of the Rehearsal wherever the hands are: Ctrl+Z takes back, Esc ends what the planner is at. In a field that is typed in, Ctrl+Z is the field's own. */
import { useEffect, useRef } from 'react';
import type { Rehearsal } from './use-rehearsal.ts';
import { stopWork } from './working.tsx';

export function useRehearsalKeys(rehearsal: Rehearsal, takeBack: () => void): void {
  const now = useRef({ rehearsal, takeBack });
  now.current = { rehearsal, takeBack };
  useEffect(() => {
    const onKeyDown = (event: KeyboardEvent) => {
      const { key, ctrlKey, metaKey, altKey, shiftKey, target } = event;
      if (key === 'Escape') return stopWork(now.current.rehearsal);
      if (!(ctrlKey || metaKey) || altKey || shiftKey || key.toLowerCase() !== 'z') return;
      if (target instanceof HTMLInputElement) return;
      event.preventDefault();
      now.current.takeBack();
    };
    window.addEventListener('keydown', onKeyDown);
    return () => window.removeEventListener('keydown', onKeyDown);
  }, []);
}
