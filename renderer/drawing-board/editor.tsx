/** The frame of the drawing board: what the railroad is called and whether it is kept, the drawing, and one sheet beside it. */
import { useEffect, useState } from 'react';
import { useHeldOn } from '../console/use-held-on.ts';
import { Act } from '../parts/act.tsx';
import { counted } from '../parts/counted.ts';
import { Dialog } from '../parts/dialog.tsx';
import { TextBox } from '../parts/field.tsx';
import { Drawing } from './drawing/drawing.tsx';
import type { Kept } from './drawing-store.ts';
import { nextStep } from './next-step.ts';
import { SHEETS, type SheetEntry } from './sheets.ts';
import { useDraftAudit, useDrawing, useDrawingStore } from './use-drawing.tsx';

const clock = (at: Date) =>
  `${String(at.getHours()).padStart(2, '0')}:${String(at.getMinutes()).padStart(2, '0')}`;

function keptWords(kept: Kept): string {
  if (kept.kind === 'kept') return `kept ${clock(kept.at)}`;
  if (kept.kind === 'keeping') return 'keeping…';
  return kept.kind === 'problem' ? `NOT KEPT: ${kept.says}` : '';
}

/** What is wrong still, for somebody who is about to publish. */
function StillWrong() {
  const findings = useDraftAudit()?.findings ?? [];
  const errors = findings.filter(({ severity }) => severity === 'error').length;
  return errors === 0 ? null : (
    <p>
      The audit finds {counted(errors, 'error')}: the railroad cannot be run like that yet. The Findings sheet
      has {errors === 1 ? 'it' : 'them'}.
    </p>
  );
}

/** The version of this railroad that an evening which is going on stays on; null where none is. */
function useHeldVersion(): number | null {
  const { id } = useDrawingStore();
  const heldOn = useHeldOn();
  return heldOn?.railroad === id ? heldOn.version : null;
}

function Publish({ onClose }: { readonly onClose: () => void }) {
  const store = useDrawingStore();
  const [note, setNote] = useState('');
  const [problem, setProblem] = useState<string | null>(null);
  const held = useHeldVersion();
  const publish = async () => {
    const why = await store.publish(note);
    if (why === null) onClose();
    else setProblem(why);
  };
  return (
    <Dialog title="Publish a version" onClose={onClose}>
      <form
        onSubmit={(event) => {
          event.preventDefault();
          void publish();
        }}
      >
        <TextBox
          label="Note"
          hint={`What is new in it, for the list of versions. Evenings run on the newest published version${held === null ? '' : `; the one that is going on stays on version ${held}`}.`}
          value={note}
          onChange={setNote}
        />
      </form>
      <StillWrong />
      {problem === null ? null : <p role="alert">{problem}</p>}
      <p className="drawing-board-acts">
        <Act kind="calm" onPress={() => void publish()}>
          Publish
        </Act>
        <Act kind="calm" onPress={onClose}>
          Not now
        </Act>
      </p>
    </Dialog>
  );
}

/** What to do next, as a way there; when all is done and published, the way to the Desk. */
function Next({ onPublish }: { readonly onPublish: () => void }) {
  const { id } = useDrawingStore();
  const audit = useDraftAudit();
  const draft = useDrawing((state) => state.history.draft);
  const published = useDrawing(
    (state) => state.version > 0 && !state.isDraft && state.kept.kind !== 'keeping',
  );
  if (audit === null || audit.malformed !== null) return <span className="drawing-board-next" />;
  const step = nextStep(draft, audit.findings, published);
  return (
    <span className="drawing-board-next">
      {step === null ? (
        <a href={`#/desk/${id}`}>To the Desk: open an evening on it</a>
      ) : (
        <>
          <span className="quiet">Next: </span>
          {step.sheet === null ? (
            <button type="button" className="drawing-board-link" onClick={onPublish}>
              {step.says}
            </button>
          ) : (
            <a href={`#/drawing-board/${id}/${step.sheet}`}>{step.says}</a>
          )}
        </>
      )}
    </span>
  );
}

function Head() {
  const store = useDrawingStore();
  const { done, undone, draft } = useDrawing((state) => state.history);
  const kept = useDrawing((state) => state.kept);
  const version = useDrawing((state) => state.version);
  const isDraft = useDrawing((state) => state.isDraft);
  const held = useHeldVersion();
  const [publishing, setPublishing] = useState(false);
  const [last, next] = [done.at(-1), undone.at(-1)];
  return (
    <>
      <header className="drawing-board-head">
        <a href="#/drawing-board">Railroads</a>
        <h2>{draft.name}</h2>
        <span className="quiet">
          {version === 0 ? 'not published' : `version ${version}${isDraft ? ' and a draft' : ''}`}
          {held === null || (held === version && !isDraft)
            ? ''
            : `; the evening that is going on stays on version ${held}`}
        </span>
        <span role="status" data-kept={kept.kind}>
          {keptWords(kept)}
        </span>
        <Next onPublish={() => setPublishing(true)} />
        <span className="drawing-board-acts">
          <Act
            kind="calm"
            onPress={store.undo}
            notNow={last === undefined ? 'nothing to undo' : undefined}
            label={last === undefined ? 'Undo' : `Undo: ${last.says}`}
            keyName="Ctrl+Z"
          >
            Undo
          </Act>
          <Act
            kind="calm"
            onPress={store.redo}
            notNow={next === undefined ? 'nothing to do again' : undefined}
            label={next === undefined ? 'Redo' : `Redo: ${next.says}`}
            keyName="Ctrl+Y"
          >
            Redo
          </Act>
          <Act kind="calm" onPress={() => setPublishing(!publishing)} expanded={publishing}>
            Publish…
          </Act>
        </span>
      </header>
      {publishing ? <Publish onClose={() => setPublishing(false)} /> : null}
    </>
  );
}

function SheetNames({ current }: { readonly current: SheetEntry }) {
  const { id } = useDrawingStore();
  const audit = useDraftAudit();
  const errors = audit?.findings.filter(({ severity }) => severity === 'error') ?? [];
  const wrong = errors.length + (audit === null || audit.malformed === null ? 0 : 1);
  return (
    <nav className="drawing-board-sheets" aria-label="Sheets">
      {SHEETS.map(({ path, name }) => (
        <a
          key={path}
          href={`#/drawing-board/${id}/${path}`}
          aria-current={path === current.path ? 'page' : undefined}
        >
          {name}
          {path === 'findings' && wrong > 0 ? ` (${wrong} wrong)` : ''}
        </a>
      ))}
    </nav>
  );
}

/** Undo and redo by their usual keys, wherever the hands are; in a field that is being typed in they are the field's own. */
function useHistoryKeys(): void {
  const store = useDrawingStore();
  useEffect(() => {
    const onKeyDown = (event: KeyboardEvent) => {
      if (!(event.ctrlKey || event.metaKey) || event.altKey) return;
      if (event.target instanceof HTMLInputElement || event.target instanceof HTMLTextAreaElement) return;
      const key = event.key.toLowerCase();
      if (key === 'z' && !event.shiftKey) store.undo();
      else if (key === 'y' || key === 'z') store.redo();
      else return;
      event.preventDefault();
    };
    window.addEventListener('keydown', onKeyDown);
    return () => window.removeEventListener('keydown', onKeyDown);
  }, [store]);
}

export function Editor({ current }: { readonly current: SheetEntry }) {
  const { id } = useDrawingStore();
  useHistoryKeys();
  const { Sheet, name, wide, path } = current;
  return (
    <div className="drawing-board" data-railroad={id} data-wide={wide}>
      <Head />
      <SheetNames current={current} />
      {wide === true ? null : <Drawing draws={path === 'track'} warns={path === 'findings'} />}
      <section className="drawing-board-sheet" aria-label={name}>
        <Sheet />
      </section>
    </div>
  );
}
