/** What the power room is about: the railroad of the evening that goes on, or one of the library, with its phase checks. */
import { useEffect, useMemo, useState } from 'react';
import type { SupplyId } from '../../shared-model/ids.ts';
import { brokenReferences } from '../../shared-model/railroad/broken-references.ts';
import { railroadDocument, type Supply } from '../../shared-model/railroad/document.ts';
import { indexRailroad, type Railroad } from '../../shared-model/railroad/railroad.ts';
import type { SessionInput } from '../../shared-model/session/input.ts';
import { plateOf } from '../../shared-model/session/kept-checks.ts';
import type { SessionState } from '../../shared-model/session/state.ts';
import type { RailroadCard } from '../../shared-model/wire/contract.ts';
import { useConsole, useConsoleStore } from '../console/use-console.tsx';
import { useKnownOf } from '../console/use-known-of.ts';
import { type DatedCheck, dated } from './dated-check.ts';
import type { Readings } from './guided-draft.ts';
import { useStandingChecks } from './use-standing-checks.ts';

/** Two supplies and what the meter read between them. */
interface MeasuredPair {
  readonly a: Supply;
  readonly b: Supply;
  readonly readings: Readings;
}

export interface Power {
  /** Null while there is none, or none that can be read; `problem` says why. */
  readonly railroad: Railroad | null;
  readonly problem: string | null;
  /** The railroad or its checks are not here yet. */
  readonly isReading: boolean;
  /** The evening that goes on; null outside one. */
  readonly state: SessionState | null;
  /** In the order of measuring. */
  readonly checks: readonly DatedCheck[];
  /** The railroads to choose from; none during an evening. */
  readonly library: readonly RailroadCard[];
  readonly chosen: string | null;
  readonly choose: (id: string) => void;
  /** Records a check, in the evening or, while none goes on, for the next one; a sentence when it could not be kept. */
  readonly keepCheck: (check: MeasuredPair) => Promise<string | null>;
  /** Records that a supply's plug was out, so that its checks lapse. */
  readonly keepReplugging: (supply: SupplyId) => Promise<string | null>;
}

type Read = Pick<Power, 'railroad' | 'problem'>;

const NOTHING_READ: Read = { railroad: null, problem: null };
const NO_CHECKS: readonly DatedCheck[] = [];

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
  const [library, setLibrary] = useState<readonly RailroadCard[] | null>(null);
  const [picked, setPicked] = useState<string | null>(null);
  const [changes, setChanges] = useState(0);
  const chosen = picked ?? library?.[0]?.id ?? null;
  const [read, setRead] = useKnownOf<Read>(chosen ?? '');
  useEffect(() => connection.on('railroads.changed', () => setChanges((count) => count + 1)), [connection]);
  // `changes` is not read inside: it only asks for the lists again.
  // biome-ignore lint/correctness/useExhaustiveDependencies: see above
  useEffect(() => {
    if (!wanted) return;
    let gone = false;
    void connection.call('railroads.list', {}).then((answer) => {
      if (!gone) setLibrary(answer.ok ? answer.value : []);
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
  }, [connection, wanted, chosen, changes, setRead]);
  const isReading = library === null || (chosen !== null && read === null);
  return { library: library ?? [], chosen, choose: setPicked, isReading, ...(read ?? NOTHING_READ) };
}

export function usePower(): Power {
  const store = useConsoleStore();
  const evening = useConsole((state) => state.evening);
  const going = evening !== null && evening.state.phase !== 'ended' ? evening : null;
  const library = useLibrary(going === null);
  const standing = useStandingChecks(going === null ? library.chosen : null);
  const checks = useMemo(
    () =>
      going === null ? (standing.checks ?? NO_CHECKS) : dated(going.state.checks, Date.parse(going.openedAt)),
    [going, standing.checks],
  );
  /** Puts an observation into the evening; a sentence when it could not be. */
  const observe = async (input: SessionInput): Promise<string | null> => {
    const sent = await store.send([{ input }]);
    if (!sent.ok) return sent.problem.says;
    return sent.value.refused?.reasons.map(({ says }) => says).join(' ') ?? null;
  };
  const keepCheck: Power['keepCheck'] = async ({ a, b, readings }) => {
    const { tolerancePercent, ...volts } = readings;
    const pair = { a: a.id, b: b.id, ...volts };
    if (going !== null) return observe({ do: 'phase-measured', ...pair });
    if (library.chosen === null) return 'There is no railroad to keep it for.';
    const plates: [string, string] = [plateOf(a), plateOf(b)];
    return standing.keepCheck({ railroad: library.chosen, ...pair, tolerancePercent, plates });
  };
  const keepReplugging: Power['keepReplugging'] = async (supply) => {
    if (going !== null) return observe({ do: 'supply-replugged', supply });
    if (library.chosen === null) return 'There is no railroad to keep it for.';
    return standing.keepReplugging({ railroad: library.chosen, supply });
  };
  const acts = { checks, keepCheck, keepReplugging };
  if (going === null) {
    const isReading = library.isReading || (library.railroad !== null && standing.checks === null);
    return { ...library, isReading, state: null, ...acts };
  }
  const { railroad, state } = going;
  return { ...library, railroad, problem: null, isReading: false, state, library: [], ...acts };
}
