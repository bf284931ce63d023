/** What an operation on a draft gives: the draft afterwards, or why not. */
import type { DraftDocument } from './draft.ts';

export type Outcome =
  | {
      readonly ok: true;
      readonly draft: DraftDocument;
      /** What to select afterwards: the nodes and edges that it is about. */
      readonly about: readonly string[];
    }
  | { readonly ok: false; readonly says: string };

export const done = (draft: DraftDocument, ...about: readonly string[]): Outcome => ({
  ok: true,
  draft,
  about,
});
export const refused = (says: string): Outcome => ({ ok: false, says });
