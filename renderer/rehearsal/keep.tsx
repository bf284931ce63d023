/** The name of a rehearsal, and keeping it: another one of that name is not lost without a word. */
import { useState } from 'react';
import type { ReplyOf } from '../../shared-model/wire/contract.ts';
import { useConsoleStore } from '../console/use-console.tsx';
import { Act } from '../parts/act.tsx';
import { TextBox } from '../parts/field.tsx';
import { type KeptRehearsal, MOST_NAME, REHEARSALS } from './kept-rehearsal.ts';

interface KeepProps {
  readonly value: KeptRehearsal;
  readonly name: string;
  readonly kept: ReplyOf<'keep.list'>;
  /** The name under which this one was kept, or opened; null where it never was. */
  readonly keptAs: string | null;
  readonly onName: (name: string) => void;
  readonly onKept: (name: string) => void;
}

export function Keep({ value, name, kept, keptAs, onName, onKept }: KeepProps) {
  const { connection } = useConsoleStore();
  const [says, setSays] = useState<string | null>(null);
  const [keptNow, setKeptNow] = useState<KeptRehearsal | null>(null);
  const [sure, setSure] = useState(false);
  const isOthers = value.name !== keptAs && kept.some(({ id }) => id === value.name);
  const keep = async () => {
    if (isOthers && !sure) {
      setSure(true);
      setSays(`Another rehearsal is kept as “${value.name}”. Give this one another name, or press again.`);
      return;
    }
    setSure(false);
    const answer = await connection.call('keep.write', { kind: REHEARSALS, id: value.name, value });
    setSays(answer.ok ? null : answer.problem.says);
    if (!answer.ok) return;
    setKeptNow(value);
    onKept(value.name);
  };
  return (
    <>
      <TextBox
        label="Name"
        value={name}
        onChange={(next) => {
          setSure(false);
          setSays(null);
          onName(next);
        }}
      />
      <Act
        kind="calm"
        onPress={() => void keep()}
        notNow={
          name.trim() === ''
            ? 'Give it a name first.'
            : name.length > MOST_NAME
              ? `A name has at most ${MOST_NAME} letters.`
              : undefined
        }
      >
        {isOthers && sure ? 'Keep it in its place' : 'Keep it'}
      </Act>
      {says === null ? null : <span role="status">{says}</span>}
      {/* Short, so that nothing below it moves: the name stands beside it. Gone with the next change, which is not kept. */}
      {says === null && keptNow === value ? (
        <span role="status">
          <span aria-hidden="true">Kept.</span>
          <span className="unseen">Kept as “{value.name}”.</span>
        </span>
      ) : null}
    </>
  );
}
