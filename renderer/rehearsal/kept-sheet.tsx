/** Rehearsals that were kept: opened again, deleted, and held against what happened. */
import { useState } from 'react';
import { type Parsed, parseValue } from '../../shared-model/malformed.ts';
import type { Answer, ReplyOf } from '../../shared-model/wire/contract.ts';
import { useConsoleStore } from '../console/use-console.tsx';
import { Act } from '../parts/act.tsx';
import { counted } from '../parts/counted.ts';
import { whenText } from '../parts/when-text.ts';
import { AT_WORK, type AtWork, atWork } from './at-work.ts';
import { type KeptRehearsal, keptRehearsal, REHEARSALS } from './kept-rehearsal.ts';

type Row = ReplyOf<'keep.list'>[number];

interface KeptSheetProps {
  readonly kept: readonly Row[];
  /** What was left at work without a name. */
  readonly others: readonly Row[];
  /** @param keptAs the name under which it is kept */
  readonly onOpen: (rehearsal: KeptRehearsal, keptAs: string | null) => void;
  readonly onChanged: () => void;
}

interface RowProps extends Pick<KeptSheetProps, 'onOpen' | 'onChanged'> {
  readonly row: Row;
  readonly kind: typeof REHEARSALS | typeof AT_WORK;
}

/** A kept one as it reads; what is wrong with it where it does not. */
function read({ row, kind }: Pick<RowProps, 'row' | 'kind'>): Parsed<Pick<AtWork, 'rehearsal' | 'keptAs'>> {
  if (kind === AT_WORK) return parseValue(atWork, row.value);
  const own = parseValue(keptRehearsal, row.value);
  return own.ok ? { ok: true, value: { rehearsal: own.value, keptAs: own.value.name } } : own;
}

function KeptRow({ row, kind, onOpen, onChanged }: RowProps) {
  const { connection } = useConsoleStore();
  const [sure, setSure] = useState(false);
  const [problem, setProblem] = useState<string | null>(null);
  const parsed = read({ row, kind });
  const rehearsal = parsed.ok ? parsed.value.rehearsal : null;
  const when = whenText(Date.parse(row.at), Date.now());
  const name = kind === AT_WORK ? `the one of ${when}` : (rehearsal?.name ?? row.id);
  const remove = async () => {
    const answer: Answer<unknown> = await connection.call('keep.remove', { kind, id: row.id });
    if (answer.ok) onChanged();
    else setProblem(answer.problem.says);
  };
  return (
    <li className="rehearsal-kept">
      <strong>{kind === AT_WORK ? 'Not kept under a name' : name}</strong>
      <span className="quiet">
        {when}
        {parsed.ok
          ? ` · ${parsed.value.rehearsal.document.name} · ${counted(parsed.value.rehearsal.situation.trains.length, 'train')}, ${counted(parsed.value.rehearsal.plans.length, 'plan')}${parsed.value.rehearsal.madeReal === null ? '' : ' · made real'}`
          : ` · it cannot be read by this version: ${parsed.malformed.path} ${parsed.malformed.says}`}
      </span>
      {parsed.ok ? (
        <Act
          kind="calm"
          label={`Open ${name}`}
          onPress={() => onOpen(parsed.value.rehearsal, parsed.value.keptAs)}
        >
          Open
        </Act>
      ) : null}
      <Act
        kind="calm"
        label={`${sure ? 'Really delete' : 'Delete'} ${name}`}
        onPress={() => (sure ? void remove() : setSure(true))}
      >
        {sure ? 'Really delete' : 'Delete'}
      </Act>
      {problem === null ? null : <span role="alert">{problem}</span>}
    </li>
  );
}

export function KeptSheet({ kept, others, onOpen, onChanged }: KeptSheetProps) {
  if (kept.length + others.length === 0)
    return (
      <p>
        No rehearsal is kept yet. Give this one a name above and keep it; it can be opened again and held
        against what happened.
      </p>
    );
  const shared = { onOpen, onChanged };
  return (
    <ul aria-label="Kept rehearsals" className="rehearsal-list">
      {kept.map((row) => (
        <KeptRow key={row.id} row={row} kind={REHEARSALS} {...shared} />
      ))}
      {others.map((row) => (
        <KeptRow key={row.id} row={row} kind={AT_WORK} {...shared} />
      ))}
    </ul>
  );
}
