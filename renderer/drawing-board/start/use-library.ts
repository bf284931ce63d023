/** The railroads that the host keeps, and what is done to them as a whole. */
import { useCallback, useEffect, useState } from 'react';
import type { RailroadCard } from '../../../shared-model/wire/contract.ts';
import { useConsoleStore } from '../../console/use-console.tsx';

export const openRailroad = (id: string) => {
  window.location.hash = `#/drawing-board/${encodeURIComponent(id)}`;
};

interface Library {
  /** Null until the host has answered. */
  readonly cards: readonly RailroadCard[] | null;
  /** Why the last act was not done; null when it was. */
  readonly problem: string | null;
  readonly tell: (problem: string | null) => void;
  /** Stores a document as a new railroad, which is only a draft yet, and opens it. */
  readonly begin: (name: string, document: unknown) => Promise<void>;
}

export function useLibrary(): Library {
  const { connection } = useConsoleStore();
  const [cards, setCards] = useState<readonly RailroadCard[] | null>(null);
  const [problem, tell] = useState<string | null>(null);
  const read = useCallback(async () => {
    const answer = await connection.call('railroads.list', {});
    if (answer.ok) setCards(answer.value);
    else tell(answer.problem.says);
  }, [connection]);
  useEffect(() => {
    void read();
    return connection.on('railroads.changed', () => void read());
  }, [connection, read]);
  const begin = async (name: string, document: unknown) => {
    const answer = await connection.call('railroads.saveDraft', { id: null, name, document });
    if (answer.ok) openRailroad(answer.value.id);
    else tell(answer.problem.says);
  };
  return { cards, problem, tell, begin };
}
