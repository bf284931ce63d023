/** The railroads that an evening can be opened on, and the one that is looked at, whole. */
import { useEffect, useState } from 'react';
import { railroadDocument } from '../../../shared-model/railroad/document.ts';
import { indexRailroad, type Railroad } from '../../../shared-model/railroad/railroad.ts';
import type { RailroadCard } from '../../../shared-model/wire/contract.ts';
import { useConsoleStore } from '../../console/use-console.tsx';
import { useKnownOf } from '../../console/use-known-of.ts';

interface Railroads {
  /** Those with a published version; null until the host has answered. */
  readonly cards: readonly RailroadCard[] | null;
  /** Why they could not be read; null when they were. */
  readonly problem: string | null;
}

export function useRailroads(): Railroads {
  const { connection } = useConsoleStore();
  const [found, setFound] = useState<Railroads>({ cards: null, problem: null });
  useEffect(() => {
    const read = async () => {
      const answer = await connection.call('railroads.list', {});
      setFound((before) =>
        answer.ok
          ? { cards: answer.value.filter(({ version }) => version > 0), problem: null }
          : { ...before, problem: answer.problem.says },
      );
    };
    void read();
    return connection.on('railroads.changed', () => void read());
  }, [connection]);
  return found;
}

/** @returns the published railroad of a card; null until it is read, and where it cannot be (opening it then says why) */
export function useWhole(card: RailroadCard | undefined): Railroad | null {
  const { connection } = useConsoleStore();
  const [id, version] = [card?.id, card?.version];
  const [railroad, setRailroad] = useKnownOf<Railroad>(`${id} ${version}`);
  useEffect(() => {
    if (id === undefined || version === undefined) return;
    let gone = false;
    const read = async () => {
      const answer = await connection.call('railroads.read', { id, version });
      const document = answer.ok ? railroadDocument.safeParse(answer.value.document) : null;
      if (!gone && document?.success === true) setRailroad(indexRailroad(document.data));
    };
    void read();
    return () => {
      gone = true;
    };
  }, [connection, id, version, setRailroad]);
  return railroad;
}
