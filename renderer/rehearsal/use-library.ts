/** The railroad to rehearse on where no evening goes on: the one that was chosen, or the first of the library that can be run. */
import { useEffect, useState } from 'react';
import { railroadDocument } from '../../shared-model/railroad/document.ts';
import { indexRailroad, type Railroad } from '../../shared-model/railroad/railroad.ts';
import { whyNotRunnable } from '../../shared-model/railroad/runnable.ts';
import type { RailroadCard } from '../../shared-model/wire/contract.ts';
import { useConsoleStore } from '../console/use-console.tsx';
import { useRailroads } from '../desk/opening/use-railroads.ts';

export interface Library {
  readonly cards: readonly RailroadCard[];
  readonly id: string;
  readonly railroad: Railroad | null;
  /** Why there is none, or why not the one that was chosen. */
  readonly says: string | null;
  /** Another one than this was chosen, and is not here yet. */
  readonly isReading: boolean;
}

interface Found extends Pick<Library, 'id' | 'railroad' | 'says'> {
  /** What had been chosen when it was looked for; absent until it was. */
  readonly chosen?: string | null;
}

/**
 * @param wanted whether one is wanted at all
 * @param chosen null: the first that can be run
 */
export function useLibrary(wanted: boolean, chosen: string | null): Library {
  const { connection } = useConsoleStore();
  const { cards, problem } = useRailroads();
  const [found, setFound] = useState<Found>({ id: '', railroad: null, says: null });
  useEffect(() => {
    if (!wanted || cards === null) return;
    let gone = false;
    const read = async () => {
      const candidates = chosen === null ? cards : cards.filter(({ id }) => id === chosen);
      let says = 'There is no railroad that can be run yet: draw one on the Drawing board.';
      for (const { id, name, version } of candidates) {
        const whole = await connection.call('railroads.read', { id, version });
        const document = whole.ok ? railroadDocument.safeParse(whole.value.document) : null;
        const error = document?.success === true ? whyNotRunnable(document.data) : null;
        if (document?.success === true && error === null)
          return gone
            ? undefined
            : setFound({ id, railroad: indexRailroad(document.data), says: null, chosen });
        if (chosen !== null)
          says = `${name} cannot be run: ${error?.says ?? (whole.ok ? 'it cannot be read by this version.' : whole.problem.says)}`;
      }
      // What was there stays, so that another one can be chosen.
      if (!gone) setFound((before) => ({ ...before, says, chosen }));
    };
    void read();
    return () => {
      gone = true;
    };
  }, [connection, cards, wanted, chosen]);
  const { id, railroad } = found;
  const isReading = wanted && problem === null && found.chosen !== chosen;
  return { cards: cards ?? [], id, railroad, says: found.says ?? problem, isReading };
}
