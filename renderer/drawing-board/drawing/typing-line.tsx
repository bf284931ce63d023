/** The line below the drawing on which a length, a name or an id is typed for what is selected. */
import { useEffect, useId, useRef, useState } from 'react';
import { useDrawing, useDrawingStore } from '../use-drawing.tsx';
import type { Typing } from './hands.ts';
import { useBoardActs } from './use-board-acts.ts';

const WORDS: Readonly<Record<Typing['what'], string>> = { length: 'Length of', name: 'Name of', id: 'Id of' };

/** @param onDone gives the keys back to the drawing */
export function TypingLine({ onDone }: { readonly onDone: () => void }) {
  const store = useDrawingStore();
  const acts = useBoardActs();
  const typing = useDrawing((state) => state.hands.typing);
  const [problem, setProblem] = useState<string | null>(null);
  const box = useRef<HTMLInputElement>(null);
  const says = useId();
  const open = typing !== null;
  useEffect(() => {
    if (!open) return;
    setProblem(null);
    box.current?.focus();
    const text = box.current?.value ?? '';
    // What was there is replaced by typing; a digit that opened the line is gone on from.
    if (text.length > 1) box.current?.select();
  }, [open]);
  if (typing === null) return null;
  const close = () => {
    store.setHands({ typing: null });
    onDone();
  };
  return (
    <form
      className="drawing-typing"
      onSubmit={(event) => {
        event.preventDefault();
        const wrong = acts.typed(typing);
        if (wrong === null) close();
        else setProblem(wrong);
      }}
    >
      <label>
        {WORDS[typing.what]} {typing.ids.length > 3 ? `${typing.ids.length} edges` : typing.ids.join(', ')}{' '}
        <input
          ref={box}
          className="field-input"
          value={typing.text}
          aria-describedby={says}
          aria-invalid={problem !== null}
          onChange={(event) => store.setHands({ typing: { ...typing, text: event.target.value } })}
          onKeyDown={(event) => {
            if (event.key !== 'Escape') return;
            event.preventDefault();
            close();
          }}
        />
      </label>
      <span id={says} role={problem === null ? undefined : 'alert'}>
        {problem ??
          (typing.what === 'length'
            ? 'such as 2400, 8 ft 4 in, 2 trains; Enter takes it over'
            : 'Enter takes it over')}
      </span>
    </form>
  );
}
