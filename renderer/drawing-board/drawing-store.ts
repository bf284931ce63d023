/** One railroad on the drawing board: its draft with everything that was done to it, what is selected, and whether it is kept. */
import type { DraftDocument } from '../../shared-model/railroad/editing/draft.ts';
import type { Edit } from '../../shared-model/railroad/editing/edit.ts';
import { editBetween, sameJson } from '../../shared-model/railroad/editing/edit-between.ts';
import { act, type History, historyOf, redo, undo } from '../../shared-model/railroad/editing/history.ts';
import type { Connection } from '../../shared-model/wire/contract.ts';
import { EMPTY_HANDS, type Hands } from './drawing/hands.ts';

/** `as-read`: nothing was changed since it was opened. */
export type Kept =
  | { readonly kind: 'as-read' }
  | { readonly kind: 'keeping' }
  | { readonly kind: 'kept'; readonly at: Date }
  | { readonly kind: 'problem'; readonly says: string };

/** A thing of the drawing is asked for: the next one that is pointed at is taken instead of selected. */
export interface Picking {
  /** What to point at: "Point at the track of the feeder". */
  readonly says: string;
  readonly take: (id: string) => void;
}

export interface DrawingState {
  readonly history: History;
  /** Ids of nodes and edges. */
  readonly selection: ReadonlySet<string>;
  readonly picking: Picking | null;
  readonly hands: Hands;
  readonly kept: Kept;
  /** The newest published version; 0 for none. */
  readonly version: number;
  /** Whether there is something that the published version does not have. */
  readonly isDraft: boolean;
  /** What was done last, or why it could not be done; for the line below the drawing and for a screen reader. */
  readonly says: string;
}

export interface DrawingStore {
  /** Of the railroad in the library. */
  readonly id: string;
  readonly get: () => DrawingState;
  readonly subscribe: (listener: () => void) => () => void;
  readonly act: (edit: Edit) => void;
  /** Does what leads from the draft to another one; `drag` as in `Edit`. */
  readonly change: (after: DraftDocument, says: string, drag?: string) => void;
  readonly undo: () => void;
  readonly redo: () => void;
  readonly select: (ids: Iterable<string>) => void;
  readonly pick: (picking: Picking | null) => void;
  readonly setHands: (part: Partial<Hands>) => void;
  /** Says something without doing anything: why something cannot be done. */
  readonly say: (says: string) => void;
  /** Keeps what is not kept yet, at once. */
  readonly keep: () => Promise<void>;
  /** Makes the draft the newest version. Answers why not, or null when it is. */
  readonly publish: (note: string) => Promise<string | null>;
  /** Whether a document read from the host is what this store kept or read last. */
  readonly isAsKept: (document: unknown) => boolean;
}

const KEEP_AFTER_MS = 700;
const NOTHING: ReadonlySet<string> = new Set();

interface Read {
  readonly id: string;
  readonly document: DraftDocument;
  readonly version: number;
  readonly isDraft: boolean;
  readonly mmPerSquare: number;
}

/**
 * @param now the page's clock
 * @param later runs something after milliseconds, answers how to call it off
 */
export function drawingStore(
  connection: Connection,
  read: Read,
  now: () => Date,
  later: (run: () => void, ms: number) => () => void,
): DrawingStore {
  let state: DrawingState = {
    history: historyOf(read.document),
    selection: NOTHING,
    picking: null,
    hands: { ...EMPTY_HANDS, mmPerSquare: read.mmPerSquare },
    kept: { kind: 'as-read' },
    version: read.version,
    isDraft: read.isDraft,
    says: '',
  };
  let lastKept = read.document;
  let callOff = () => {};
  let keeping: Promise<void> = Promise.resolve();
  const listeners = new Set<() => void>();
  const set = (part: Partial<DrawingState>) => {
    state = { ...state, ...part };
    for (const listener of listeners) listener();
  };

  const keepNow = async () => {
    const { draft } = state.history;
    if (draft === lastKept) return;
    const answer = await connection.call('railroads.saveDraft', {
      id: read.id,
      name: draft.name === '' ? 'Without a name' : draft.name,
      document: draft,
    });
    if (!answer.ok) return set({ kept: { kind: 'problem', says: answer.problem.says } });
    lastKept = draft;
    set({ isDraft: true, kept: draft === state.history.draft ? { kind: 'kept', at: now() } : state.kept });
  };
  /** One after the other, so that an older draft never overtakes a newer one. */
  const keep = (): Promise<void> => {
    callOff();
    keeping = keeping.then(keepNow);
    return keeping;
  };
  const goTo = (history: History, says: string) => {
    if (history === state.history) return;
    const { draft } = history;
    const there = new Set<string>([...draft.nodes, ...draft.edges].map(({ id }) => id));
    const selection = [...state.selection].every((id) => there.has(id))
      ? state.selection
      : new Set([...state.selection].filter((id) => there.has(id)));
    set({ history, selection, says, kept: { kind: 'keeping' } });
    callOff();
    callOff = later(() => void keep(), KEEP_AFTER_MS);
  };
  const doEdit = (edit: Edit) => goTo(act(state.history, edit), edit.says);

  return {
    id: read.id,
    get: () => state,
    subscribe(listener) {
      listeners.add(listener);
      return () => listeners.delete(listener);
    },
    act: doEdit,
    change: (after, says, drag) => doEdit({ ...editBetween(state.history.draft, after, says), drag }),
    undo: () => goTo(undo(state.history), `undone: ${state.history.done.at(-1)?.says ?? ''}`),
    redo: () => goTo(redo(state.history), `done again: ${state.history.undone.at(-1)?.says ?? ''}`),
    select(ids) {
      const selection = new Set(ids);
      if (selection.size > 0 || state.selection.size > 0) set({ selection });
    },
    pick: (picking) => set({ picking }),
    setHands: (part) => set({ hands: { ...state.hands, ...part } }),
    say: (says) => set({ says }),
    keep,
    async publish(note) {
      await keep();
      if (state.kept.kind === 'problem') return state.kept.says;
      const answer = await connection.call('railroads.publish', { id: read.id, note });
      if (!answer.ok) return answer.problem.says;
      set({ version: answer.value.version, isDraft: answer.value.hasDraft, says: 'published' });
      return null;
    },
    isAsKept: (document) => sameJson(document, lastKept),
  };
}
