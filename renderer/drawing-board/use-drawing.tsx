/** The drawing in React: opening one, and hooks that draw a part again only when what it selected has changed. */
import {
  createContext,
  type ReactNode,
  startTransition,
  useContext,
  useEffect,
  useState,
  useSyncExternalStore,
} from 'react';
import type { Malformed } from '../../shared-model/malformed.ts';
import { parseValue } from '../../shared-model/malformed.ts';
import { lineLength } from '../../shared-model/polyline.ts';
import { railroadDocument } from '../../shared-model/railroad/document.ts';
import type { DraftDocument } from '../../shared-model/railroad/editing/draft.ts';
import { lineOf, trackOf } from '../../shared-model/railroad/editing/track.ts';
import type { Railroad } from '../../shared-model/railroad/railroad.ts';
import type { UserSettings } from '../../shared-model/wire/contract.ts';
import { useConsoleStore } from '../console/use-console.tsx';
import { useKnownOf } from '../console/use-known-of.ts';
import type { DatedCheck } from '../power-room/dated-check.ts';
import { auditThread } from './audit-thread.ts';
import { type DraftAudit, draftRailroad } from './draft-audit.ts';
import { type DrawingState, type DrawingStore, drawingStore } from './drawing-store.ts';
import { useChecksOf } from './use-checks.ts';

const DrawingContext = createContext<DrawingStore | null>(null);
const NO_CHECKS: readonly DatedCheck[] = [];
const ChecksContext = createContext(NO_CHECKS);
const AuditContext = createContext<DraftAudit | null>(null);

export function DrawingProvider({
  store,
  children,
}: {
  readonly store: DrawingStore;
  readonly children: ReactNode;
}) {
  const checks = useChecksOf(store.id);
  const audit = useAuditOf(store, checks);
  return (
    <DrawingContext value={store}>
      <ChecksContext value={checks ?? NO_CHECKS}>
        <AuditContext value={audit}>{children}</AuditContext>
      </ChecksContext>
    </DrawingContext>
  );
}

/** The store of the drawing that is open, for what is done. */
export function useDrawingStore(): DrawingStore {
  const store = useContext(DrawingContext);
  if (store === null) throw new Error('a sheet is drawn outside its DrawingProvider');
  return store;
}

/** A part of the drawing's state; `select` gives the same object for the same state. */
export function useDrawing<Part>(select: (state: DrawingState) => Part): Part {
  const store = useDrawingStore();
  return useSyncExternalStore(store.subscribe, () => select(store.get()));
}

export const useDraft = (): DraftDocument => useDrawing((state) => state.history.draft);

/** The draft ready for questions; it may be broken, so that not every question has an answer. */
export const useDraftRailroad = (): Railroad => draftRailroad(useDraft());

const later = (run: () => void, ms: number) => {
  const timer = window.setTimeout(run, ms);
  return () => window.clearTimeout(timer);
};

/** Milliseconds without an edit before the audit looks at the draft. */
const SETTLED_MS = 150;

/** What the audit said last, a moment after the last edit; null until it has said anything. */
function useAuditOf(store: DrawingStore, checks: readonly DatedCheck[] | null): DraftAudit | null {
  const [audit, setAudit] = useState<DraftAudit | null>(null);
  useEffect(() => {
    // Without them it would say for a moment that supplies are not measured.
    if (checks === null) return;
    const thread = auditThread((next) => startTransition(() => setAudit(next)));
    const draftNow = () => store.get().history.draft;
    let asked = draftNow();
    const ask = () => {
      asked = draftNow();
      thread.judge({ draft: asked, checks });
    };
    ask();
    let callOff = () => {};
    const unsubscribe = store.subscribe(() => {
      if (draftNow() === asked) return;
      callOff();
      callOff = later(ask, SETTLED_MS);
    });
    return () => {
      callOff();
      unsubscribe();
      thread.close();
    };
  }, [store, checks]);
  return audit;
}

/** The phase checks that hold for the railroad that is drawn. */
export const useChecks = (): readonly DatedCheck[] => useContext(ChecksContext);

/** What the audit says of the draft, a moment after the last edit, with the phase checks that hold; null until it has said anything. */
export const useDraftAudit = (): DraftAudit | null => useContext(AuditContext);

export type Opening =
  | { readonly kind: 'opening' }
  | { readonly kind: 'open'; readonly store: DrawingStore }
  | { readonly kind: 'not-found'; readonly says: string }
  | { readonly kind: 'malformed'; readonly malformed: Malformed; readonly document: unknown };

/** Drawings that were opened in this page, so that going to another screen and back loses no undo. */
const opened = new Map<string, DrawingStore>();

/** Millimetres of one square of new track: as the track that is there was drawn, else 300 mm or a foot. */
function squareOf(draft: DraftDocument, lengths: UserSettings['lengths']): number {
  const track = trackOf(draft);
  const squares = draft.edges.reduce((sum, edge) => sum + lineLength(lineOf(track, edge)), 0);
  const plain = lengths === 'metric' ? 300 : 304.8;
  if (squares === 0) return plain;
  const drawn = draft.edges.reduce((sum, { length }) => sum + length, 0) / squares;
  return Math.max(1, Math.round(drawn / 10)) * 10;
}

/** Opens a railroad of the library for drawing; anew when the id changes. */
export function useOpenDrawing(id: string): Opening {
  const { connection, get } = useConsoleStore();
  const [opening, setOpening] = useKnownOf<Opening>(id);
  useEffect(() => {
    let wanted = true;
    const open = async () => {
      const { settings } = get();
      const answer = await connection.call('railroads.read', { id });
      if (!wanted) return;
      if (!answer.ok) return setOpening({ kind: 'not-found', says: answer.problem.says });
      const { document, version, isDraft } = answer.value;
      const before = opened.get(id);
      if (before?.isAsKept(document)) return setOpening({ kind: 'open', store: before });
      const parsed = parseValue(railroadDocument, document);
      if (!parsed.ok) return setOpening({ kind: 'malformed', malformed: parsed.malformed, document });
      const mmPerSquare = squareOf(parsed.value, settings.lengths);
      const read = { id, document: parsed.value, version, isDraft, mmPerSquare };
      const store = drawingStore(connection, read, () => new Date(), later);
      opened.set(id, store);
      setOpening({ kind: 'open', store });
    };
    void open();
    const keep = () => void opened.get(id)?.keep();
    window.addEventListener('pagehide', keep);
    return () => {
      wanted = false;
      window.removeEventListener('pagehide', keep);
      keep();
    };
  }, [connection, get, id, setOpening]);
  return opening ?? { kind: 'opening' };
}
