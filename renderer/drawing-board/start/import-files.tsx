/** Importing files, chosen or dropped. A wrong one is told at its places; nothing that is stored is touched by it. */
import { type DragEvent, type ReactNode, useState } from 'react';
import { type Malformed, parseJson } from '../../../shared-model/malformed.ts';
import { railroadTextProblems } from '../../../shared-model/railroad/parse-railroad.ts';
import { useConsoleStore } from '../../console/use-console.tsx';
import { Act } from '../../parts/act.tsx';
import { Table } from '../../parts/table.tsx';
import { openRailroad } from './use-library.ts';

interface WrongFile {
  readonly name: string;
  readonly problems: readonly Malformed[];
  /** What is in it, where that is JSON at all: it can be kept as a broken draft. */
  readonly document: unknown;
}

/** More would not be read; mending the first ones shows the next. */
const MOST_SHOWN = 30;

interface ImportFilesProps {
  readonly children: ReactNode;
  readonly onKeep: (name: string, document: unknown) => void;
}

function WrongFileTable({ file, onKeep }: { readonly file: WrongFile; readonly onKeep: () => void }) {
  const { name, problems } = file;
  return (
    <section role="alert" className="start-wrong">
      <h3>{name} was not imported</h3>
      <p>
        {problems.length === 1 ? 'One place is' : `${problems.length} places are`} not as expected. Nothing
        that is stored was touched.
      </p>
      <Table
        caption="Where it is wrong"
        captionHidden
        columns={[{ name: 'Where' }, { name: 'What was expected' }]}
        rows={problems.slice(0, MOST_SHOWN).map(({ path, says }, index) => ({
          key: `${index} ${path}`,
          cells: [path, says],
        }))}
      />
      {file.document === undefined ? null : (
        <Act kind="calm" onPress={onKeep}>
          Keep it as a broken draft
        </Act>
      )}
    </section>
  );
}

export function ImportFiles({ children, onKeep }: ImportFilesProps) {
  const { connection } = useConsoleStore();
  const [wrong, setWrong] = useState<readonly WrongFile[]>([]);
  const [over, setOver] = useState(false);

  const take = async (files: readonly File[]) => {
    const found: WrongFile[] = [];
    let last: string | null = null;
    for (const file of files) {
      const text = await file.text();
      const answer = await connection.call('railroads.import', { text, name: file.name });
      if (answer.ok) last = answer.value.id;
      else {
        const json = parseJson(text);
        const problems = railroadTextProblems(text);
        found.push({
          name: file.name,
          problems:
            problems.length > 0
              ? problems
              : [{ path: answer.problem.path ?? '$', says: answer.problem.says }],
          document: json.ok ? json.value : undefined,
        });
      }
    }
    setWrong(found);
    if (found.length === 0 && last !== null) openRailroad(last);
  };
  const drop = (event: DragEvent) => {
    event.preventDefault();
    setOver(false);
    void take([...event.dataTransfer.files]);
  };

  return (
    // biome-ignore lint/a11y/noStaticElementInteractions: a place to drop files; choosing one by the field does the same
    <div
      className="start"
      data-over={over || undefined}
      onDragOver={(event) => {
        event.preventDefault();
        setOver(true);
      }}
      onDragLeave={() => setOver(false)}
      onDrop={drop}
    >
      {children}
      <section aria-labelledby="start-import">
        <h2 id="start-import">From a file</h2>
        <label className="start-file">
          Railroad file, or drop it anywhere here{' '}
          <input
            type="file"
            multiple
            accept=".json,application/json"
            onChange={(event) => void take([...(event.target.files ?? [])])}
          />
        </label>
        {wrong.map((file) => (
          <WrongFileTable key={file.name} file={file} onKeep={() => onKeep(file.name, file.document)} />
        ))}
      </section>
    </div>
  );
}
