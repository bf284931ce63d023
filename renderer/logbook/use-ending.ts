/** What an evening came to in the end, known from the state after its last entry: no report has to be worked out for it. */
import { useEffect, useState } from 'react';
import { useConsoleStore } from '../console/use-console.tsx';
import type { OpenedEvening } from './use-evening.ts';

/** What the charts need to know of the whole evening: it is in the state after its last entry. */
export interface Whole {
  /** Seconds that the evening lasted. */
  readonly seconds: number;
  /** Names of the trains, those added tonight among them. */
  readonly trains: ReadonlyMap<string, string>;
}

type Ending = { readonly whole: Whole } | { readonly says: string } | null;

/** Null while it is on its way. */
export function useEnding({ card: { id, entries } }: OpenedEvening): Ending {
  const { connection } = useConsoleStore();
  const [ending, setEnding] = useState<Ending>(null);
  useEffect(() => {
    let wanted = true;
    void connection.call('evenings.stateAt', { id, entry: entries }).then((answer) => {
      if (!wanted) return;
      if (!answer.ok) return setEnding({ says: answer.problem.says });
      const { at, trains } = answer.value.state;
      const names = Object.entries(trains).map(([train, { name }]) => [train, name] as const);
      setEnding({ whole: { seconds: at, trains: new Map(names) } });
    });
    return () => {
      wanted = false;
    };
  }, [connection, id, entries]);
  return ending;
}
