/** The evenings in the log: search, name, note, put away; each leads to its replay. */
import { useEffect, useState } from 'react';
import type { EveningCard } from '../../shared-model/wire/contract.ts';
import { useConsoleStore } from '../console/use-console.tsx';
import { Act } from '../parts/act.tsx';
import { EmptyState } from '../parts/empty-state.tsx';
import { OnOff, TextBox } from '../parts/field.tsx';
import { Table } from '../parts/table.tsx';
import { EveningEdit } from './evening-edit.tsx';
import { LogCare } from './log-care.tsx';

const COLUMNS = [
  { name: 'Evening' },
  { name: 'Opened' },
  { name: 'People' },
  { name: 'Entries', figures: true },
  { name: 'Refusals', figures: true },
  { name: 'Alarms', figures: true },
  { name: 'Note' },
  { name: 'Acts' },
] as const;

const matches = (card: EveningCard, words: string): boolean => {
  const text = [card.name, card.note, card.railroadName, card.openedAt, ...card.people]
    .join(' ')
    .toLowerCase();
  return words
    .toLowerCase()
    .split(/\s+/)
    .every((word) => text.includes(word));
};

const opened = (at: string): string =>
  new Date(at).toLocaleString('sv-SE', { dateStyle: 'short', timeStyle: 'short' });

export function EveningList() {
  const { connection } = useConsoleStore();
  const [cards, setCards] = useState<readonly EveningCard[] | null>(null);
  const [problem, setProblem] = useState<string | null>(null);
  const [words, setWords] = useState('');
  const [putAway, setPutAway] = useState(false);
  const [editing, setEditing] = useState<string | null>(null);
  useEffect(() => {
    let newest = 0;
    const read = async () => {
      newest += 1;
      const mine = newest;
      const answer = await connection.call('evenings.list', {});
      // An older answer that comes later is no longer so.
      if (mine !== newest) return;
      if (answer.ok) setCards(answer.value);
      else setProblem(answer.problem.says);
    };
    void read();
    const end = connection.on('evenings.changed', () => void read());
    return () => {
      newest = -1;
      end();
    };
  }, [connection]);
  const update = async (id: string, change: { name?: string; note?: string; archived?: boolean }) => {
    const answer = await connection.call('evenings.update', { id, ...change });
    setProblem(answer.ok ? null : answer.problem.says);
    if (answer.ok) setEditing(null);
  };

  if (cards === null) return problem === null ? <p>Reading the log.</p> : <p role="alert">{problem}</p>;
  if (cards.length === 0)
    return (
      <EmptyState
        title="No evening in the log yet"
        says="Open an evening on the Desk: everything that is said and done in it is kept, and can be looked back on here. Or bring in the file of an evening that was held elsewhere."
      >
        <LogCare />
      </EmptyState>
    );
  const shown = cards.filter((card) => card.archived === putAway && matches(card, words));
  const edited = cards.find(({ id }) => id === editing);
  return (
    <div className="logbook-list">
      <div className="logbook-search">
        <TextBox label="Search name, note, railroad, people, day" value={words} onChange={setWords} />
        <OnOff label="Evenings put away" on={putAway} onChange={setPutAway} />
      </div>
      <LogCare />
      {problem === null ? null : <p role="alert">{problem}</p>}
      {edited === undefined ? null : (
        <EveningEdit
          key={edited.id}
          card={edited}
          onKeep={(change) => void update(edited.id, change)}
          onClose={() => setEditing(null)}
        />
      )}
      {shown.length === 0 ? (
        <p>{putAway ? 'None put away that matches.' : 'None that matches.'}</p>
      ) : (
        <Table
          caption={`${shown.length} of ${cards.length} evenings`}
          columns={COLUMNS}
          rows={shown.map((card) => ({
            key: card.id,
            cells: [
              <a key="open" className="logbook-open" href={`#/logbook/${encodeURIComponent(card.id)}`}>
                {card.name}
              </a>,
              opened(card.openedAt),
              card.people.join(', '),
              card.entries,
              card.refusals,
              card.alarms,
              card.note,
              <span key="acts" className="logbook-acts">
                <Act kind="calm" onPress={() => setEditing(card.id)} label={`Name and note of ${card.name}`}>
                  Name, note
                </Act>
                <Act
                  kind="calm"
                  onPress={() => void update(card.id, { archived: !card.archived })}
                  label={`${card.archived ? 'Take out again' : 'Put away'}: ${card.name}`}
                >
                  {card.archived ? 'Take out again' : 'Put away'}
                </Act>
              </span>,
            ],
          }))}
        />
      )}
    </div>
  );
}
