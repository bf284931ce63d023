/** What goes into the notebook: for now the file. */
import { useDraft } from '../use-drawing.tsx';

export function PrintSheet() {
  const draft = useDraft();
  return <pre>{JSON.stringify(draft, null, 2)}</pre>;
}
