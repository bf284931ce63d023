/** The head of a rehearsal: that nothing in it is live, what it began with, its name, and whether it is kept. */
import { useState } from 'react';
import type { RailroadCard } from '../../shared-model/wire/contract.ts';
import { useConsoleStore } from '../console/use-console.tsx';
import { Act } from '../parts/act.tsx';
import { TextBox } from '../parts/field.tsx';
import { Pick } from '../parts/pick.tsx';
import { type KeptRehearsal, REHEARSALS } from './kept-rehearsal.ts';
import type { Origin } from './origin.ts';

/** The railroads to choose from where no evening goes on. */
export interface RailroadChoice {
  readonly cards: readonly RailroadCard[];
  readonly chosen: string;
  /** Why the last one that was chosen is not it. */
  readonly problem: string | undefined;
  readonly onChoose: (id: string) => void;
}

interface KeepProps {
  readonly value: KeptRehearsal;
  readonly name: string;
  readonly onName: (name: string) => void;
  readonly onKept: () => void;
}

function Keep({ value, name, onName, onKept }: KeepProps) {
  const { connection } = useConsoleStore();
  const [says, setSays] = useState<string | null>(null);
  const keep = async () => {
    const answer = await connection.call('keep.write', { kind: REHEARSALS, id: value.name, value });
    setSays(answer.ok ? `Kept as “${value.name}”.` : answer.problem.says);
    if (answer.ok) onKept();
  };
  return (
    <>
      <TextBox label="Name" value={name} onChange={onName} />
      <Act
        kind="calm"
        onPress={() => void keep()}
        notNow={
          name.trim() === ''
            ? 'Give it a name first.'
            : name.length > 80
              ? 'A name has at most 80 letters.'
              : undefined
        }
      >
        Keep it
      </Act>
      {says === null ? null : <span role="status">{says}</span>}
    </>
  );
}

interface RehearsalHeadProps extends KeepProps {
  readonly origin: Origin;
  readonly beginnings: readonly { readonly key: string; readonly says: string }[];
  readonly railroads: RailroadChoice | null;
  readonly onBegin: (key: string) => void;
}

export function RehearsalHead({ origin, beginnings, railroads, onBegin, ...keep }: RehearsalHeadProps) {
  const known = beginnings.some(({ key }) => key === origin.key);
  const own = {
    key: origin.key,
    says: `${origin.key === 'kept' ? 'as kept' : 'as it was left'}, from ${origin.says}`,
  };
  return (
    <section className="rehearsal-head" aria-label="Rehearsal">
      <strong className="rehearsal-title">Rehearsal: nothing here is live.</strong>
      {railroads === null ? null : (
        <Pick
          label="On"
          value={railroads.chosen}
          options={railroads.cards.map(({ id, name }) => ({ value: id, says: name }))}
          onChange={railroads.onChoose}
          problem={railroads.problem}
        />
      )}
      <Pick
        label="Begin anew from"
        value={origin.key}
        options={(known ? beginnings : [own, ...beginnings]).map(({ key, says }) => ({ value: key, says }))}
        onChange={onBegin}
      />
      <Act kind="calm" onPress={() => onBegin(known ? origin.key : (beginnings[0]?.key ?? 'empty'))}>
        Discard it
      </Act>
      <Keep {...keep} />
      <a className="rehearsal-link" href="#/rehearsal/by-hand">
        By hand, on the Desk
      </a>
    </section>
  );
}
