/** Does what mends a finding, in the draft as it is now: the finding may be a moment older. */
import { remedyFor } from '../../shared-model/power/editing/remedy-for.ts';
import type { Finding } from '../../shared-model/refusal.ts';
import type { DrawingStore } from './drawing-store.ts';

export function mend(store: DrawingStore, finding: Finding): void {
  const edit = remedyFor(finding, store.get().history.draft);
  if (edit === null) store.say('Not done: the track has changed since; the audit looks at it again.');
  else store.act(edit);
}
