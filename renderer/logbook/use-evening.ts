/** An evening of the log as it is opened: its card, its railroad, the state before its first entry, and whether it is what was written. */
import { useEffect, useState } from 'react';
import { indexRailroad, type Railroad } from '../../shared-model/railroad/railroad.ts';
import type { SessionState } from '../../shared-model/session/state.ts';
import type { EveningCard } from '../../shared-model/wire/contract.ts';
import { useConsoleStore } from '../console/use-console.tsx';

export interface OpenedEvening {
  readonly card: EveningCard;
  readonly railroad: Railroad;
  readonly initial: SessionState;
  /** Gone through entry by entry; false while that goes on. */
  readonly checked: boolean;
}

export type Opening =
  | { readonly is: 'reading' }
  | { readonly is: 'failed'; readonly says: string }
  | { readonly is: 'open'; readonly evening: OpenedEvening };

/** Opens an evening; a long one is shown at once and gone through meanwhile, and no longer shown when it is not what was written. */
export function useEvening(id: string): Opening {
  const { connection } = useConsoleStore();
  const [opening, setOpening] = useState<Opening>({ is: 'reading' });
  useEffect(() => {
    let wanted = true;
    const tell = (next: Opening) => {
      if (wanted) setOpening(next);
    };
    let shown: EveningCard | null = null;
    const open = async () => {
      const answer = await connection.call('evenings.read', { id });
      if (!answer.ok) return tell({ is: 'failed', says: answer.problem.says });
      const { document, ...rest } = answer.value;
      const evening = { ...rest, railroad: indexRailroad(document) };
      shown = evening.card;
      tell({ is: 'open', evening });
      if (evening.checked || !wanted) return;
      const checked = await connection.call('evenings.check', { id });
      if (!wanted || shown !== evening.card) return;
      if (!checked.ok) return tell({ is: 'failed', says: checked.problem.says });
      setOpening((now) =>
        now.is === 'open' ? { is: 'open', evening: { ...now.evening, checked: true } } : now,
      );
    };
    // Named, ended or deleted in another window: the card follows; one that has grown is opened anew.
    const follow = async () => {
      const answer = await connection.call('evenings.list', {});
      const card = answer.ok ? answer.value.find((one) => one.id === id) : undefined;
      if (!answer.ok || !wanted || shown === null) return;
      if (card === undefined) return tell({ is: 'failed', says: 'It is no longer in the log.' });
      if (card.headHash !== shown.headHash) return open();
      setOpening((now) => (now.is === 'open' ? { is: 'open', evening: { ...now.evening, card } } : now));
    };
    setOpening({ is: 'reading' });
    void open();
    const end = connection.on('evenings.changed', () => void follow());
    return () => {
      wanted = false;
      end();
    };
  }, [connection, id]);
  return opening;
}
