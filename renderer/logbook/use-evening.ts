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
    const open = async () => {
      const answer = await connection.call('evenings.read', { id });
      if (!answer.ok) return tell({ is: 'failed', says: answer.problem.says });
      const { document, ...rest } = answer.value;
      const evening = { ...rest, railroad: indexRailroad(document) };
      tell({ is: 'open', evening });
      if (evening.checked || !wanted) return;
      const checked = await connection.call('evenings.check', { id });
      if (checked.ok) tell({ is: 'open', evening: { ...evening, checked: true } });
      else tell({ is: 'failed', says: checked.problem.says });
    };
    setOpening({ is: 'reading' });
    void open();
    return () => {
      wanted = false;
    };
  }, [connection, id]);
  return opening;
}
