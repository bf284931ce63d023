/** What the power room is about: the railroad of the evening that goes on, or one of the library, with its phase checks. */
import { useEffect, useMemo, useState } from 'react';
import { brokenReferences } from '../../shared-model/railroad/broken-references.ts';
import { railroadDocument } from '../../shared-model/railroad/document.ts';
import { indexRailroad, type Railroad } from '../../shared-model/railroad/railroad.ts';
import type { SessionState } from '../../shared-model/session/state.ts';
import type { RailroadCard } from '../../shared-model/wire/contract.ts';
import { useConsole, useConsoleStore } from '../console/use-console.tsx';
import { CHECK_KIND, type DatedCheck, keptChecks } from './kept-check.ts';
import { useKept } from './use-kept.ts';

export interface Power {
  /** Null while there is none, or none that can be read; `problem` says why. */
  readonly railroad: Railroad | null;
  readonly problem: string | null;
  /** The evening that goes on; null outside one. */
  readonly state: SessionState | null;
  /** In the order of measuring. */
  readonly checks: readonly DatedCheck[];
  /** The railroads to choose from; none during an evening. */
  readonly library: readonly RailroadCard[];
  readonly chosen: string | null;
  readonly choose: (id: string) => void;
  /** Keeps a check that was made outside an evening; the answer is a sentence when it could not be kept. */
  readonly keepCheck: (check: Omit<DatedCheck, 'measuredAt'>) => Promise<string | null>;
}

type Read = Pick<Power, 'railroad' | 'problem'>;

function readDocument(document: unknown): Read {
  const parsed = railroadDocument.safeParse(document);
  const broken = parsed.success ? brokenReferences(parsed.data) : [];
  if (!parsed.success || broken.length > 0)
    return {
      railroad: null,
      problem: broken[0]?.says ?? 'This railroad is not whole yet: finish it on the drawing board.',
    };
  return { railroad: indexRailroad(parsed.data), problem: null };
}

/** The railroad chosen from the library; the first of the list until one is chosen. */
function useLibrary(wanted: boolean) {
  const { connection } = useConsoleStore();
  const [library, setLibrary] = useState<readonly RailroadCard[]>([]);
  const [picked, setPicked] = useState<string | null>(null);
  const [read, setRead] = useState<Read>({ railroad: null, problem: null });
  const [changes, setChanges] = useState(0);
  const chosen = picked ?? library[0]?.id ?? null;
  useEffect(() => connection.on('railroads.changed', () => setChanges((count) => count + 1)), [connection]);
  // `changes` is not read inside: it only asks for the lists again.
  // biome-ignore lint/correctness/useExhaustiveDependencies: see above
  useEffect(() => {
    if (!wanted) return;
    let gone = false;
    void connection.call('railroads.list', {}).then((answer) => {
      if (!gone && answer.ok) setLibrary(answer.value);
    });
    return () => {
      gone = true;
    };
  }, [connection, wanted, changes]);
  // biome-ignore lint/correctness/useExhaustiveDependencies: see above
  useEffect(() => {
    if (!wanted || chosen === null) return;
    let gone = false;
    void connection.call('railroads.read', { id: chosen }).then((answer) => {
      if (gone) return;
      setRead(
        answer.ok ? readDocument(answer.value.document) : { railroad: null, problem: answer.problem.says },
      );
    });
    return () => {
      gone = true;
    };
  }, [connection, wanted, chosen, changes]);
  return { library, chosen, choose: setPicked, ...read };
}

export function usePower(): Power {
  const evening = useConsole((state) => state.evening);
  const going = evening !== null && evening.state.phase !== 'ended' ? evening : null;
  const library = useLibrary(going === null);
  const { kept, keep } = useKept(CHECK_KIND);
  const checks = useMemo(() => {
    if (going === null) return library.chosen === null ? [] : keptChecks(kept, library.chosen);
    const opened = Date.parse(going.openedAt);
    return going.state.checks.map((check) => ({ ...check, measuredAt: opened + check.at * 1000 }));
  }, [going, kept, library.chosen]);
  const keepCheck: Power['keepCheck'] = async ({ a, b, voltsA, voltsB, voltsAcross, tolerancePercent }) => {
    const answer = await keep({
      railroad: library.chosen,
      a,
      b,
      voltsA,
      voltsB,
      voltsAcross,
      tolerancePercent,
    });
    return answer.ok ? null : answer.problem.says;
  };
  if (going === null) return { ...library, state: null, checks, keepCheck };
  const { railroad, state } = going;
  return { ...library, railroad, problem: null, state, checks, library: [], keepCheck };
}
