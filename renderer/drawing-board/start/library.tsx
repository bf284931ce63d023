/** The railroads of this console: what to begin with, import of files. A wrong file is told at its place, and nothing stored is touched. */
import { useCallback, useEffect, useState } from 'react';
import { blankSheet } from '../../../shared-model/railroad/editing/draft.ts';
import type { RailroadCard } from '../../../shared-model/wire/contract.ts';
import { useConsoleStore } from '../../console/use-console.tsx';
import { Act } from '../../parts/act.tsx';
import './start.css';

const goTo = (id: string) => {
  window.location.hash = `#/drawing-board/${encodeURIComponent(id)}`;
};

export function Library() {
  const { connection } = useConsoleStore();
  const [cards, setCards] = useState<readonly RailroadCard[]>([]);
  const [problem, setProblem] = useState<string | null>(null);

  const read = useCallback(async () => {
    const answer = await connection.call('railroads.list', {});
    if (answer.ok) setCards(answer.value);
  }, [connection]);
  useEffect(() => {
    void read();
    return connection.on('railroads.changed', () => void read());
  }, [connection, read]);

  const begin = async () => {
    const document = blankSheet('New railroad');
    const answer = await connection.call('railroads.saveDraft', { id: null, name: document.name, document });
    if (answer.ok) goTo(answer.value.id);
    else setProblem(answer.problem.says);
  };
  const take = async (file: File | undefined) => {
    if (file === undefined) return;
    const answer = await connection.call('railroads.import', { text: await file.text(), name: file.name });
    if (answer.ok) goTo(answer.value.id);
    else setProblem(answer.problem.says);
  };

  return (
    // biome-ignore lint/a11y/noStaticElementInteractions: a place to drop files; choosing one by the field does the same
    <div
      className="drawing-board-library"
      onDragOver={(event) => event.preventDefault()}
      onDrop={(event) => {
        event.preventDefault();
        void take(event.dataTransfer.files[0]);
      }}
    >
      <h2>Railroads</h2>
      <p className="drawing-board-acts">
        <Act kind="calm" onPress={() => void begin()}>
          Blank sheet
        </Act>
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
            <a href={`#/drawing-board/${card.id}`}>{card.name}</a>
            <span className="quiet">
              {card.version === 0 ? 'not published' : `version ${card.version}`}
              {card.hasDraft ? ', with a draft' : ''}
            </span>
          </li>
        ))}
      </ul>
    </div>
  );
}
