/** Rehearsals that were kept: opened again, deleted, and held against what happened. */
import { useState } from 'react';
import type { Answer, ReplyOf } from '../../shared-model/wire/contract.ts';
import { useConsoleStore } from '../console/use-console.tsx';
import { Act } from '../parts/act.tsx';
import { type KeptRehearsal, keptRehearsal, REHEARSALS } from './kept-rehearsal.ts';

type Row = ReplyOf<'keep.list'>[number];

interface KeptSheetProps {
  readonly kept: readonly Row[];
  readonly onOpen: (rehearsal: KeptRehearsal) => void;
  readonly onChanged: () => void;
}

function KeptRow({ row, onOpen, onChanged }: Omit<KeptSheetProps, 'kept'> & { readonly row: Row }) {
  const { connection } = useConsoleStore();
  const [sure, setSure] = useState(false);
  const [problem, setProblem] = useState<string | null>(null);
  const parsed = keptRehearsal.safeParse(row.value);
  const remove = async () => {
    const answer: Answer<unknown> = await connection.call('keep.remove', { kind: REHEARSALS, id: row.id });
    if (answer.ok) onChanged();
    else setProblem(answer.problem.says);
  };
  return (
    <li className="rehearsal-kept">
      <strong>{parsed.success ? parsed.data.name : row.id}</strong>
      <span className="quiet">
        {new Date(row.at).toLocaleString()}
        {parsed.success
          ? ` · ${parsed.data.document.name} · ${parsed.data.situation.trains.length} trains, ${parsed.data.plans.length} plans${parsed.data.madeReal === null ? '' : ' · made real'}`
          : ' · it cannot be read by this version'}
      </span>
      {parsed.success ? (
        <Act kind="calm" label={`Open ${parsed.data.name}`} onPress={() => onOpen(parsed.data)}>
          Open
        </Act>
      ) : null}
      <Act
        kind="calm"
        label={`${sure ? 'Really delete' : 'Delete'} ${parsed.success ? parsed.data.name : row.id}`}
        onPress={() => (sure ? void remove() : setSure(true))}
      >
        {sure ? 'Really delete' : 'Delete'}
      </Act>
      {problem === null ? null : <span role="alert">{problem}</span>}
    </li>
  );
}

export function KeptSheet({ kept, onOpen, onChanged }: KeptSheetProps) {
  if (kept.length === 0)
    return (
      <p>
        No rehearsal is kept yet. Give this one a name above and keep it; it can be opened again and held
        against what happened.
      </p>
    );
  return (
    <ul aria-label="Kept rehearsals" className="rehearsal-list">
      {kept.map((row) => (
        <KeptRow key={row.id} row={row} onOpen={onOpen} onChanged={onChanged} />
      ))}
    </ul>
  );
}
