/** The railroads of this console: import and export of files, the drawing, and what the audit finds. A wrong file is told at its place, and nothing stored is touched. */
import { useCallback, useEffect, useMemo, useState } from 'react';
import { fullAudit } from '../../shared-model/power/audit.ts';
import { railroadDocument } from '../../shared-model/railroad/document.ts';
import { indexRailroad, type Railroad } from '../../shared-model/railroad/railroad.ts';
import { whyNotRunnable } from '../../shared-model/railroad/runnable.ts';
import { initialState } from '../../shared-model/session/initial.ts';
import type { RailroadCard } from '../../shared-model/wire/contract.ts';
import { Board } from '../board/board.tsx';
import { boardView } from '../board/board-view.ts';
import { useConsoleStore } from '../console/use-console.tsx';
import { Act } from '../parts/act.tsx';
import { EmptyState } from '../parts/empty-state.tsx';
import { Table } from '../parts/table.tsx';
import './drawing-board.css';

interface Opened {
  readonly id: string;
  readonly railroad: Railroad | null;
  readonly text: string;
  readonly name: string;
}

function Drawing({ railroad }: { readonly railroad: Railroad }) {
  const view = useMemo(() => boardView(railroad, initialState(railroad), {}), [railroad]);
  return (
    <div className="drawing-board-track">
      <Board railroad={railroad} view={view} label={`Track of ${railroad.document.name}`} />
    </div>
  );
}

function Findings({ railroad }: { readonly railroad: Railroad }) {
  const findings = useMemo(() => fullAudit(railroad.document), [railroad]);
  if (findings.length === 0) return <p>The audit finds nothing.</p>;
  return (
    <Table
      caption={`Audit: ${findings.length} findings`}
      columns={[{ name: 'What' }, { name: 'About' }, { name: 'Says' }, { name: 'What to do' }]}
      rows={findings.map(({ code, severity, about, says, remedy }) => ({
        key: `${code} ${about.join(' ')}`,
        cells: [`${severity}: ${code}`, about.join(', '), says, remedy],
      }))}
    />
  );
}

function saveAs(name: string, text: string): void {
  const link = document.createElement('a');
  link.href = `data:application/json;charset=utf-8,${encodeURIComponent(text)}`;
  link.download = `${name.toLowerCase().replaceAll(/[^a-z0-9]+/g, '-')}.railroad.json`;
  link.click();
}

export function DrawingBoardScreen() {
  const { connection } = useConsoleStore();
  const [cards, setCards] = useState<readonly RailroadCard[]>([]);
  const [opened, setOpened] = useState<Opened | null>(null);
  const [problem, setProblem] = useState<string | null>(null);

  const read = useCallback(async () => {
    const answer = await connection.call('railroads.list', {});
    if (answer.ok) setCards(answer.value);
  }, [connection]);
  useEffect(() => {
    void read();
    return connection.on('railroads.changed', () => void read());
  }, [connection, read]);

  const open = async (card: RailroadCard) => {
    const answer = await connection.call('railroads.read', { id: card.id });
    if (!answer.ok) return setProblem(answer.problem.says);
    const parsed = railroadDocument.safeParse(answer.value.document);
    const whole = parsed.success && whyNotRunnable(parsed.data) === null;
    setProblem(null);
    setOpened({
      id: card.id,
      name: card.name,
      railroad: whole ? indexRailroad(parsed.data) : null,
      text: JSON.stringify(answer.value.document, null, 2),
    });
  };
  const take = async (file: File | undefined) => {
    if (file === undefined) return;
    const answer = await connection.call('railroads.import', { text: await file.text(), name: file.name });
    if (!answer.ok)
      setProblem(
        `${file.name}: ${answer.problem.path === undefined ? '' : `${answer.problem.path}: `}${answer.problem.says}`,
      );
    else {
      await read();
      await open(answer.value);
    }
  };
  const publish = async (id: string) => {
    const answer = await connection.call('railroads.publish', { id, note: 'published from the list' });
    setProblem(answer.ok ? null : answer.problem.says);
    await read();
  };

  return (
    // biome-ignore lint/a11y/noStaticElementInteractions: a place to drop files; choosing one by the field does the same
    <div
      className="drawing-board"
      onDragOver={(event) => event.preventDefault()}
      onDrop={(event) => {
        event.preventDefault();
        void take(event.dataTransfer.files[0]);
      }}
    >
      <h1>Railroads</h1>
      <p>
        Import a railroad file (drop it here, or choose it), look at its track and at what the audit finds,
        and publish it so that evenings can run on it. Drawing track with the pointer is not in this version:
        a file is written by hand, by the form in docs/railroad.schema.json, or begun from an exported one.
      </p>
      <label className="drawing-board-file">
        Railroad file{' '}
        <input
          type="file"
          accept=".json,application/json"
          onChange={(event) => void take(event.target.files?.[0])}
        />
      </label>
      {problem === null ? null : <p role="alert">{problem}</p>}
      <ul>
        {cards.map((card) => (
          <li key={card.id}>
            <strong>{card.name}</strong>{' '}
            <span className="quiet">
              {card.version === 0 ? 'not published' : `version ${card.version}`}
              {card.hasDraft ? ', with a draft' : ''}
            </span>
            <Act kind="calm" onPress={() => void open(card)} pressed={opened?.id === card.id}>
              Look at it
            </Act>
            {card.hasDraft ? (
              <Act kind="calm" onPress={() => void publish(card.id)}>
                Publish
              </Act>
            ) : null}
          </li>
        ))}
      </ul>
      {opened === null ? (
        <EmptyState title="Nothing is opened" says="Look at one of the railroads above." />
      ) : (
        <section aria-label={opened.name}>
          <h2>{opened.name}</h2>
          <Act kind="calm" onPress={() => saveAs(opened.name, opened.text)}>
            Export as a file
          </Act>
          {opened.railroad === null ? (
            <p>This draft cannot be drawn: it has broken references.</p>
          ) : (
            <>
              <Drawing railroad={opened.railroad} />
              <Findings railroad={opened.railroad} />
            </>
          )}
        </section>
      )}
    </div>
  );
}
