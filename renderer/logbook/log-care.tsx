/** Care of the log: bring in an evening from a file, make a backup, restore from one, go through the whole log. */
import { useCallback, useEffect, useRef, useState } from 'react';
import { flushSync } from 'react-dom';
import type { BackupCard } from '../../shared-model/wire/evening-calls.ts';
import { useConsoleStore } from '../console/use-console.tsx';
import { Act } from '../parts/act.tsx';
import { Dialog } from '../parts/dialog.tsx';
import { Table } from '../parts/table.tsx';
import { bringInFile } from './carry-evening.ts';
import { useCarrying } from './use-carrying.ts';

const count = (entries: number): string => entries.toLocaleString('en');
const megabytes = (bytes: number): string => `${(bytes / 1_000_000).toFixed(1)} MB`;
const day = (at: string | null): string =>
  at === null ? 'none' : new Date(at).toLocaleString('sv-SE', { dateStyle: 'short', timeStyle: 'short' });

/** Null while there is nothing to give up. */
function GiveUp({ giveUp }: { readonly giveUp: (() => void) | null }) {
  if (giveUp === null) return null;
  return (
    <Act kind="calm" onPress={giveUp}>
      Give it up
    </Act>
  );
}

/** Going through the whole log, or a backup: told how far it is, and given up when it is left. */
function useGoingThrough(tell: (words: string) => void) {
  const { connection } = useConsoleStore();
  const [isGoing, setIsGoing] = useState(false);
  useEffect(() => {
    if (!isGoing) return;
    const giveUp = () => void connection.call('log.giveUp', {});
    window.addEventListener('hashchange', giveUp);
    return () => window.removeEventListener('hashchange', giveUp);
  }, [connection, isGoing]);
  return {
    giveUp: isGoing ? () => void connection.call('log.giveUp', {}) : null,
    follow: async <Value,>(goThrough: () => Promise<Value>): Promise<Value> => {
      setIsGoing(true);
      const end = connection.on('log.progress', ({ entries, of, written }) =>
        tell(
          `${written === true ? 'Brought back' : 'Gone through'} ${count(entries)} of ${count(of)} entries.`,
        ),
      );
      try {
        return await goThrough();
      } finally {
        end();
        setIsGoing(false);
      }
    },
  };
}

/** Asks once more before it restores; the focus is on the answer that changes nothing. */
function Restoring({ file, onRestore }: { readonly file: string; readonly onRestore: () => void }) {
  const [asked, setAsked] = useState(false);
  const acts = useRef<HTMLSpanElement>(null);
  const ask = (next: boolean) => {
    flushSync(() => setAsked(next));
    acts.current?.querySelector<HTMLButtonElement>('button:last-child')?.focus();
  };
  return (
    <span ref={acts} className="logbook-acts">
      {asked ? (
        <>
          <Act
            kind="calm"
            onPress={() => {
              ask(false);
              onRestore();
            }}
            label={`Restore from ${file}, sure`}
          >
            Yes, restore
          </Act>
          <Act kind="calm" onPress={() => ask(false)}>
            No
          </Act>
        </>
      ) : (
        <Act kind="calm" onPress={() => ask(true)} label={`Restore from ${file}`}>
          Restore …
        </Act>
      )}
    </span>
  );
}

function Backups({ onClose }: { readonly onClose: () => void }) {
  const { connection } = useConsoleStore();
  const [cards, setCards] = useState<readonly BackupCard[] | null>(null);
  const [says, setSays] = useState<string | null>(null);
  const care = useGoingThrough(setSays);
  const read = useCallback(async () => {
    const answer = await connection.call('log.backups', {});
    if (answer.ok) setCards(answer.value);
    else setSays(answer.problem.says);
  }, [connection]);
  useEffect(() => void read(), [read]);
  const backUp = async () => {
    setSays('The log is being copied, and the copy checked.');
    const answer = await connection.call('log.backup', {});
    setSays(answer.ok ? `Backup made: ${answer.value.file}` : answer.problem.says);
    await read();
  };
  const restore = async (file: string) => {
    setSays('The backup is being gone through.');
    const answer = await care.follow(() => connection.call('log.restore', { file }));
    setSays(answer.ok ? answer.value.says : answer.problem.says);
  };
  return (
    <Dialog title="Backups of the log" onClose={onClose}>
      <p>
        A backup is made at the end of each evening; the ten newest are kept. Restoring brings back evenings
        and railroads that the log has not; what it has stays as it is.
      </p>
      {says === null ? null : <p role="status">{says}</p>}
      <GiveUp giveUp={care.giveUp} />
      {cards === null || cards.length === 0 ? (
        <p>{cards === null ? 'Looking.' : 'There is no backup yet.'}</p>
      ) : (
        <Table
          caption={`${cards.length} backups`}
          columns={[
            { name: 'Made' },
            { name: 'File' },
            { name: 'Evenings', figures: true },
            { name: 'Newest evening' },
            { name: 'Size', figures: true },
            { name: 'Act' },
          ]}
          rows={cards.map(({ file, made, evenings, newest, bytes, problem }) => ({
            key: file,
            cells: [
              made === null ? 'not known' : day(made),
              problem === null ? file : `${file}: ${problem}`,
              evenings,
              day(newest),
              megabytes(bytes),
              <Restoring key="restore" file={file} onRestore={() => void restore(file)} />,
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

export function LogCare() {
  const { connection } = useConsoleStore();
  const [open, setOpen] = useState(false);
  const [says, setSays] = useState<{ readonly bad: boolean; readonly words: string } | null>(null);
  const tell = (words: string) => setSays({ bad: false, words });
  const carrying = useCarrying(tell);
  const goingThrough = useGoingThrough(tell);
  const chooser = useRef<HTMLInputElement>(null);
  const bringIn = async (file: File) => {
    setSays({ bad: false, words: `${file.name} is being gone through.` });
    const answer = await carrying.follow((follower) => bringInFile(connection, file, follower));
    if (answer === null) return setSays({ bad: false, words: `${file.name} was given up.` });
    setSays(
      answer.ok
        ? { bad: false, words: `Brought in: ${answer.value.name}, ${answer.value.entries} entries.` }
        : { bad: true, words: `${file.name} was not brought in: ${answer.problem.says}` },
    );
  };
  const verify = async () => {
    setSays({ bad: false, words: 'The whole log is being gone through.' });
    const answer = await goingThrough.follow(() => connection.call('log.verify', {}));
    if (!answer.ok) return setSays({ bad: answer.problem.kind !== 'refused', words: answer.problem.says });
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
      <GiveUp giveUp={carrying.giveUp ?? goingThrough.giveUp} />
      {open ? <Backups onClose={() => setOpen(false)} /> : null}
    </section>
  );
}
