/** The head of a rehearsal: whether anything in it is live, what it began with, what can be taken back, its name. */
import type { ReactNode } from 'react';
import type { RailroadCard } from '../../shared-model/wire/contract.ts';
import { Act } from '../parts/act.tsx';
import { Pick } from '../parts/pick.tsx';
import type { Origin } from './origin.ts';

/** The railroads to choose from where no evening goes on. */
export interface RailroadChoice {
  readonly cards: readonly RailroadCard[];
  readonly chosen: string;
  /** Why the last one that was chosen is not it. */
  readonly problem: string | undefined;
  readonly onChoose: (id: string) => void;
}

interface RehearsalHeadProps {
  readonly origin: Origin;
  /** What is pressed on the sheet below goes to the live evening. */
  readonly isReal: boolean;
  readonly beginnings: readonly { readonly key: string; readonly says: string }[];
  readonly railroads: RailroadChoice | null;
  readonly onBegin: (key: string) => void;
  readonly onDiscard: () => void;
  /** What can be taken back; null for nothing. */
  readonly last: string | null;
  readonly onTakeBack: () => void;
  /** Its name, and keeping it. */
  readonly children: ReactNode;
}

export function RehearsalHead({
  origin,
  isReal,
  beginnings,
  railroads,
  onBegin,
  onDiscard,
  last,
  onTakeBack,
  children,
}: RehearsalHeadProps) {
  const known = beginnings.some(({ key }) => key === origin.key);
  const own = {
    key: origin.key,
    says: `${origin.key === 'kept' ? 'as kept' : 'as it was left'}, from ${origin.says}`,
  };
  return (
    <section className="rehearsal-head" aria-label="Rehearsal">
      <strong className="rehearsal-title">
        {isReal ? 'Orders go to the live evening.' : 'Rehearsal: nothing here is live.'}
      </strong>
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
      <Act kind="calm" keyName="Ctrl+⌫" onPress={onDiscard}>
        Discard it
      </Act>
      <Act
        kind="calm"
        keyName="Ctrl+Z"
        onPress={onTakeBack}
        label={last === null ? 'Take back' : `Take back: ${last}`}
        notNow={last === null ? 'There is nothing to take back.' : undefined}
      >
        Take back
      </Act>
      {children}
      <a className="rehearsal-link" href="#/rehearsal/by-hand">
        By hand
      </a>
    </section>
  );
}
