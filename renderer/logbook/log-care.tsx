/** Care of the log: bring in an evening from a file, make a backup, restore from one, go through the whole log. */
import { useCallback, useEffect, useRef, useState } from 'react';
import type { BackupCard } from '../../shared-model/wire/evening-calls.ts';
import { useConsoleStore } from '../console/use-console.tsx';
import { Act } from '../parts/act.tsx';
import { Dialog } from '../parts/dialog.tsx';
import { Table } from '../parts/table.tsx';
import { bringInFile } from './carry-evening.ts';
import { useCarrying } from './use-carrying.ts';

interface CareProps {
  /** Told when evenings came in. */
  readonly onChange: () => void;
}

const megabytes = (bytes: number): string => `${(bytes / 1_000_000).toFixed(1)} MB`;
const day = (at: string | null): string =>
  at === null ? 'none' : new Date(at).toLocaleString('sv-SE', { dateStyle: 'short', timeStyle: 'short' });

function Backups({ onClose, onChange }: CareProps & { readonly onClose: () => void }) {
  const { connection } = useConsoleStore();
  const [cards, setCards] = useState<readonly BackupCard[] | null>(null);
  const [asked, setAsked] = useState<string | null>(null);
  const [says, setSays] = useState<string | null>(null);
  const read = useCallback(async () => {
    const answer = await connection.call('log.backups', {});
    if (answer.ok) setCards(answer.value);
    else setSays(answer.problem.says);
  }, [connection]);
  useEffect(() => void read(), [read]);
  const backUp = async () => {
    const answer = await connection.call('log.backup', {});
    setSays(answer.ok ? `Backup made: ${answer.value.file}` : answer.problem.says);
    await read();
  };
  const restore = async (file: string) => {
    setSays('The backup is being gone through.');
    const answer = await connection.call('log.restore', { file });
    setAsked(null);
    setSays(answer.ok ? answer.value.says : answer.problem.says);
    onChange();
  };
  return (
    <Dialog title="Backups of the log" onClose={onClose}>
      <p>
        A backup is made at the end of each evening; the ten newest are kept. Restoring brings back evenings
        and railroads that the log has not; what it has stays as it is.
      </p>
      {says === null ? null : <p role="status">{says}</p>}
      {cards === null || cards.length === 0 ? (
        <p>{cards === null ? 'Looking.' : 'There is no backup yet.'}</p>
      ) : (
        <Table
          caption={`${cards.length} backups`}
          columns={[
            { name: 'File' },
            { name: 'Evenings', figures: true },
            { name: 'Newest' },
            { name: 'Size' },
            { name: 'Act' },
          ]}
          rows={cards.map(({ file, evenings, newest, bytes, problem }) => ({
            key: file,
            cells: [
              problem === null ? file : `${file}: ${problem}`,
              evenings,
              day(newest),
              megabytes(bytes),
              asked === file ? (
                <span key="sure" className="logbook-acts">
                  <Act kind="calm" onPress={() => void restore(file)} label={`Restore from ${file}, sure`}>
                    Yes, restore
                  </Act>
                  <Act kind="calm" onPress={() => setAsked(null)}>
                    No
                  </Act>
                </span>
              ) : (
                <Act key="ask" kind="calm" onPress={() => setAsked(file)} label={`Restore from ${file}`}>
                  Restore …
                </Act>
              ),
            ],
          }))}
        />
      )}
      <div className="logbook-acts">
        <Act kind="calm" onPress={() => void backUp()}>
          Back up now
        </Act>
        <Act kind="calm" onPress={onClose}>
          Close
        </Act>
      </div>
    </Dialog>
  );
}

export function LogCare({ onChange }: CareProps) {
  const { connection } = useConsoleStore();
  const [open, setOpen] = useState(false);
  const [says, setSays] = useState<{ readonly bad: boolean; readonly words: string } | null>(null);
  const carrying = useCarrying((words) => setSays({ bad: false, words }));
  const chooser = useRef<HTMLInputElement>(null);
  const bringIn = async (file: File) => {
    setSays({ bad: false, words: `${file.name} is being gone through.` });
    const answer = await carrying.follow((follower) => bringInFile(connection, file, follower));
    if (answer === null) return setSays({ bad: false, words: `${file.name} was given up.` });
    setSays(
      answer.ok
        ? { bad: false, words: `Brought in: ${answer.value.name}, ${answer.value.entries} entries.` }
        : { bad: true, words: `${file.name} was not brought in. ${answer.problem.says}` },
    );
    if (answer.ok) onChange();
  };
  const verify = async () => {
    setSays({ bad: false, words: 'The whole log is being gone through.' });
    const answer = await connection.call('log.verify', {});
    if (!answer.ok) return setSays({ bad: true, words: answer.problem.says });
    const { good, says: found } = answer.value;
    setSays({ bad: !good, words: good ? 'The log is what was written.' : found.join(' ') });
  };
  return (
    <section
      className="log-care"
      aria-label="Care of the log"
      onDragOver={(event) => event.preventDefault()}
      onDrop={(event) => {
        event.preventDefault();
        const [file] = event.dataTransfer.files;
        if (file !== undefined) void bringIn(file);
      }}
    >
      <input
        ref={chooser}
        type="file"
        accept=".json"
        className="unseen"
        tabIndex={-1}
        aria-label="Evening file"
        onChange={(event) => {
          const [file] = event.target.files ?? [];
          event.target.value = '';
          if (file !== undefined) void bringIn(file);
        }}
      />
      <div className="logbook-acts">
        <Act kind="calm" onPress={() => chooser.current?.click()}>
          Bring in an evening file …
        </Act>
        <Act kind="calm" onPress={() => setOpen(true)}>
          Backups …
        </Act>
        <Act kind="calm" onPress={() => void verify()}>
          Check the log
        </Act>
      </div>
      {says === null ? null : <p role={says.bad ? 'alert' : 'status'}>{says.words}</p>}
      {carrying.giveUp === null ? null : (
        <Act kind="calm" onPress={carrying.giveUp}>
          Give it up
        </Act>
      )}
      {open ? <Backups onClose={() => setOpen(false)} onChange={onChange} /> : null}
    </section>
  );
}
