/**
 * A part of the screen that asks for something and goes away again. It lies in the flow of its zone and never covers anything:
 * the board, the next act and CALL ALL STOP stay in sight and in reach.
 */
import { type ReactNode, useEffect, useId, useRef } from 'react';
import './dialog.css';

interface DialogProps {
  readonly title: string;
  readonly onClose: () => void;
  readonly children: ReactNode;
}

export function Dialog({ title, onClose, children }: DialogProps) {
  const heading = useId();
  const box = useRef<HTMLElement>(null);
  useEffect(() => {
    const before = document.activeElement;
    box.current?.focus();
    return () => {
      if (before instanceof HTMLElement && before.isConnected) before.focus();
    };
  }, []);
  return (
    <section
      ref={box}
      className="dialog"
      role="dialog"
      aria-labelledby={heading}
      tabIndex={-1}
      onKeyDown={(event) => {
        if (event.key !== 'Escape') return;
        event.stopPropagation();
        onClose();
      }}
    >
      <h2 id={heading}>{title}</h2>
      {children}
    </section>
  );
}
