/** Doing things to the wiring: a change that becomes one with the last of the same field, and an outcome that may be refused. */
import type { DraftDocument } from '../../../shared-model/railroad/editing/draft.ts';
import type { Outcome } from '../../../shared-model/railroad/editing/outcome.ts';
import { useDrawingStore } from '../use-drawing.tsx';

export interface Changing {
  /** @param field what is being typed in: one entry of the history for all the typing in it */
  readonly change: (how: (draft: DraftDocument) => DraftDocument, says: string, field?: string) => void;
  /** Says why not where it is refused; answers what it is about, or null. */
  readonly attempt: (how: (draft: DraftDocument) => Outcome, says: string) => readonly string[] | null;
}

export function useChange(): Changing {
  const store = useDrawingStore();
  return {
    change: (how, says, field) => store.change(how(store.get().history.draft), says, field),
    attempt(how, says) {
      const outcome = how(store.get().history.draft);
      if (!outcome.ok) {
        store.say(`${outcome.says.replace(/^./, (first) => first.toUpperCase())}.`);
        return null;
      }
      store.change(outcome.draft, says);
      return outcome.about;
    },
  };
}
