/** Sheet and figures of an evening, worked out by the host; for a long one it tells how far it is, and leaving gives it up. */
import { useEffect, useState } from 'react';
import type { EveningFigures } from '../../shared-model/logbook/figure-types.ts';
import type { TrainSheet } from '../../shared-model/logbook/train-sheet.ts';
import { useConsoleStore } from '../console/use-console.tsx';

export interface EveningReport {
  readonly figures: EveningFigures;
  readonly sheet: TrainSheet;
}

export type Reporting =
  | { readonly is: 'none' }
  | { readonly is: 'working'; readonly entries: number }
  | { readonly is: 'failed'; readonly says: string }
  | { readonly is: 'made'; readonly report: EveningReport };

/** @param wanted false: nothing is asked for yet */
export function useReport(id: string, wanted: boolean): Reporting {
  const { connection } = useConsoleStore();
  const [reporting, setReporting] = useState<Reporting>({ is: 'none' });
  useEffect(() => {
    if (!wanted) return;
    let here = true;
    let made = false;
    setReporting({ is: 'working', entries: 0 });
    const end = connection.on('evenings.progress', (push) => {
      if (here && push.id === id && !made) setReporting({ is: 'working', entries: push.entries });
    });
    void connection.call('evenings.report', { id }).then((answer) => {
      made = true;
      if (!here) return;
      setReporting(
        answer.ok ? { is: 'made', report: answer.value } : { is: 'failed', says: answer.problem.says },
      );
    });
    return () => {
      here = false;
      end();
      if (!made) void connection.call('evenings.giveUp', { id });
    };
  }, [connection, id, wanted]);
  return reporting;
}
