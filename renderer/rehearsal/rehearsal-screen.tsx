/** Rehearsal: what-if on a copy, visibly not live. `#/rehearsal` asks and plans, `#/rehearsal/by-hand` plays a fork on the Desk's own parts. */
import { useCallback, useEffect, useMemo, useState } from 'react';
import { railroadDocument } from '../../shared-model/railroad/document.ts';
import { indexRailroad, type Railroad } from '../../shared-model/railroad/railroad.ts';
import { whyNotRunnable } from '../../shared-model/railroad/runnable.ts';
import type { ReplyOf } from '../../shared-model/wire/contract.ts';
import { useConsole, useConsoleStore } from '../console/use-console.tsx';
import { EmptyState } from '../parts/empty-state.tsx';
import { screenRest } from '../shell/address.ts';
import { useHash } from '../shell/use-hash.ts';
import { ByHand } from './by-hand.tsx';
import { type KeptRehearsal, REHEARSALS } from './kept-rehearsal.ts';
import { type Origin, originOf } from './origin.ts';
import { RehearsalDesk } from './rehearsal-desk.tsx';
import './rehearsal.css';

/** The railroad to rehearse on where no evening goes on: the first of the library that can be run. */
function useLibraryRailroad(wanted: boolean): {
  readonly railroad: Railroad | null;
  readonly says: string | null;
} {
  const { connection } = useConsoleStore();
  const [found, setFound] = useState<{ railroad: Railroad | null; says: string | null }>({
    railroad: null,
    says: null,
  });
  useEffect(() => {
    if (!wanted) return;
    const read = async () => {
      const list = await connection.call('railroads.list', {});
      if (!list.ok) return setFound({ railroad: null, says: list.problem.says });
      for (const { id, version } of list.value) {
        if (version === 0) continue;
        const whole = await connection.call('railroads.read', { id, version });
        const document = whole.ok ? railroadDocument.safeParse(whole.value.document) : null;
        if (document?.success === true && whyNotRunnable(document.data) === null)
          return setFound({ railroad: indexRailroad(document.data), says: null });
      }
      setFound({
        railroad: null,
        says: 'There is no railroad that can be run yet: draw one on the Drawing board.',
      });
    };
    void read();
  }, [connection, wanted]);
  return found;
}

/** A rehearsal that was kept, as a beginning. */
function originOfKept(kept: KeptRehearsal, evening: Parameters<typeof originOf>[1]): Origin {
  const railroad = indexRailroad(kept.document);
  const { known } = originOf('empty', evening, railroad);
  return { key: 'kept', says: kept.from, railroad, json: kept.situation, known, left: [] };
}

function Planner() {
  const evening = useConsole((state) => state.evening);
  const { connection } = useConsoleStore();
  const live = evening === null || evening.state.phase === 'ended' ? null : evening;
  const library = useLibraryRailroad(live === null);
  const railroad = live?.railroad ?? library.railroad;
  const [begun, setBegun] = useState<{
    readonly number: number;
    readonly key: string;
    readonly kept: KeptRehearsal | null;
  }>({
    number: 0,
    key: 'live',
    kept: null,
  });
  const [kept, setKept] = useState<ReplyOf<'keep.list'>>([]);
  const readKept = useCallback(async () => {
    const answer = await connection.call('keep.list', { kind: REHEARSALS });
    if (answer.ok) setKept(answer.value);
  }, [connection]);
  useEffect(() => void readKept(), [readKept]);
  // The beginning is taken once: what happens on the Desk meanwhile does not move the rehearsal.
  // biome-ignore lint/correctness/useExhaustiveDependencies: the fork is of the moment in which it was begun
  const origin = useMemo(() => {
    if (begun.kept !== null) return originOfKept(begun.kept, live);
    if (railroad === null) return null;
    return originOf(begun.key === 'live' && live === null ? 'empty' : begun.key, live, railroad);
  }, [begun, railroad]);
  if (origin === null)
    return library.says === null ? null : <EmptyState title="Nothing to rehearse on" says={library.says} />;
  const begin = (key: string) => setBegun(({ number }) => ({ number: number + 1, key, kept: null }));
  return (
    <RehearsalDesk
      key={begun.number}
      origin={origin}
      opened={begun.kept}
      kept={kept}
      live={live}
      onBegin={begin}
      onOpen={(rehearsal) => setBegun(({ number }) => ({ number: number + 1, key: 'kept', kept: rehearsal }))}
      onKept={() => void readKept()}
    />
  );
}

export function RehearsalScreen() {
  const [part] = screenRest(useHash());
  return part === 'by-hand' ? <ByHand /> : <Planner />;
}
