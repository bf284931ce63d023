/** Keys of a rehearsal by hand beside those of the Desk: Ctrl+Enter makes its first order real, Ctrl+Delete leaves it out, Ctrl+Backspace begins anew. While a line is typed the last two are the line's. */
import { useEffect, useRef } from 'react';

export interface HandActs {
  readonly makeReal: () => void;
  readonly leaveOut: () => void;
  readonly beginAnew: () => void;
}

export function useHandKeys(acts: HandActs): void {
  const now = useRef(acts);
  now.current = acts;
  useEffect(() => {
    const onKeyDown = (event: KeyboardEvent) => {
      const { key, ctrlKey, metaKey, altKey, shiftKey, repeat, target } = event;
      if (!(ctrlKey || metaKey) || altKey || shiftKey || repeat) return;
      const typed = target instanceof HTMLInputElement && target.value !== '';
      const act =
        key === 'Enter'
          ? now.current.makeReal
          : key === 'Delete' && !typed
            ? now.current.leaveOut
            : key === 'Backspace' && !typed
              ? now.current.beginAnew
              : null;
      if (act === null) return;
      event.preventDefault();
      act();
    };
    window.addEventListener('keydown', onKeyDown);
    return () => window.removeEventListener('keydown', onKeyDown);
  }, []);
}
