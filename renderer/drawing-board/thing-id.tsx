/** The id of a thing, by which orders, dials and labels name it. It is changed everywhere at once, when it is typed to the end. */
import { useRef, useState } from 'react';
import { renameId } from '../../shared-model/railroad/editing/rename-id.ts';
import { TextBox } from '../parts/field.tsx';
import { useDraft, useDrawingStore } from './use-drawing.tsx';

interface ThingIdProps {
  readonly id: string;
  /** Where more than one is in sight: "Id of No. 7". */
  readonly label?: string;
  /** Told the new id: what is shown by its id is shown by that from now on. */
  readonly onRenamed?: (id: string) => void;
}

export function ThingId({ id, label = 'Id', onRenamed }: ThingIdProps) {
  const store = useDrawingStore();
  const draft = useDraft();
  const [typed, setTyped] = useState<string | null>(null);
  const form = useRef<HTMLFormElement>(null);
  const outcome = typed === null ? null : renameId(draft, id, typed.trim());
  const problem = outcome === null || outcome.ok ? undefined : `Not possible: ${outcome.says}.`;
  const takeOver = () => {
    if (outcome === null || !outcome.ok) return;
    setTyped(null);
    const [to = id] = outcome.about;
    if (to === id) return;
    store.change(outcome.draft, `${id} is ${to}`);
    onRenamed?.(to);
  };
  return (
    <form
      ref={form}
      onSubmit={(event) => {
        event.preventDefault();
        const around = form.current?.closest('.drawing-board-sheet');
        takeOver();
        // Under its new id the field is another one: the keys stay in it.
        if (outcome?.ok === true)
          window.setTimeout(() =>
            around
              ?.querySelector<HTMLInputElement>(`[data-id-of="${CSS.escape(outcome.about[0] ?? id)}"] input`)
              ?.focus(),
          );
      }}
      data-id-of={id}
    >
      <TextBox
        label={label}
        short
        hint={typed === null ? undefined : 'Enter takes it over, wherever the railroad names it.'}
        value={typed ?? id}
        problem={problem}
        onChange={setTyped}
        onLeave={takeOver}
      />
    </form>
  );
}
