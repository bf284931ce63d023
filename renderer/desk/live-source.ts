/** The live evening as a Desk looks at it. */
import { useCallback } from 'react';
import type { BatchItem } from '../../shared-model/session/batch.ts';
import { useConsole, useConsoleStore, useSessionSeconds } from '../console/use-console.tsx';
import type { DeskMoment, DeskSource, Sent } from './desk-source.ts';

export interface LiveSource extends DeskSource {
  /** Which evening it is: another one is another Desk. */
  readonly id: string;
}

/** @returns null while no evening is open */
export function useLiveSource(): LiveSource | null {
  const store = useConsoleStore();
  const evening = useConsole((state) => state.evening);
  const seconds = useSessionSeconds(evening);
  const send = useCallback(
    async (items: readonly BatchItem[]): Promise<Sent> => {
      const answer = await store.send(items);
      if (!answer.ok) return { events: [], refused: null, problem: answer.problem.says };
      return { ...answer.value, problem: null };
    },
    [store],
  );
  const latest = useCallback((): DeskMoment => {
    const now = store.get().evening ?? evening;
    if (now === null) throw new Error('a Desk is drawn without an evening');
    return now;
  }, [store, evening]);
  if (evening === null) return null;
  const { id, railroad, state, recent, openedAt, resumed } = evening;
  return { kind: 'live', id, railroad, state, recent, seconds, openedAt, resumed, latest, send };
}
