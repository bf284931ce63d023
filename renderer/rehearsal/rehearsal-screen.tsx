/** Rehearsal: what-if on a copy, visibly not live. `#/rehearsal` asks and plans, `#/rehearsal/by-hand` plays a fork on the Desk's own parts. */
import { useCallback, useEffect, useMemo, useState } from 'react';
import { indexRailroad } from '../../shared-model/railroad/railroad.ts';
import type { ReplyOf } from '../../shared-model/wire/contract.ts';
import { carryingOf } from '../carrying/carrying.ts';
import type { ConsoleStore } from '../console/console-store.ts';
import { sessionSeconds } from '../console/followed-evening.ts';
import { useConsole, useConsoleStore } from '../console/use-console.tsx';
import { EmptyState } from '../parts/empty-state.tsx';
import { screenRest } from '../shell/address.ts';
import { useHash } from '../shell/use-hash.ts';
import { listAtWork } from './at-work.ts';
import { ByHand } from './by-hand.tsx';
import { keepMadeReal } from './keep-made-real.ts';
import { type KeptRehearsal, REHEARSALS } from './kept-rehearsal.ts';
import { type Origin, originFromHere, originOf } from './origin.ts';
import {
  leaveAtWork,
  ownAtWork,
  type PresentRehearsal,
  presentRehearsal,
  recallRehearsal,
  rememberRehearsal,
} from './present-rehearsal.ts';
import { RehearsalDesk } from './rehearsal-desk.tsx';
import { useLibrary } from './use-library.ts';
import './rehearsal.css';
import './rehearsal-sheets.css';
import './rehearsal-chart.css';

/** A rehearsal that was kept, or left when another screen was gone to, as a beginning. */
function originOfKept(
  kept: KeptRehearsal,
  key: 'kept' | 'left',
  evening: Parameters<typeof originOf>[1],
): Origin {
  const railroad = indexRailroad(kept.document);
  const { known } = originOf('empty', evening, railroad);
  const underWay = new Map(kept.underWay.map(({ train, blocks, entered }) => [train, { blocks, entered }]));
  return { key, says: kept.from, railroad, json: kept.situation, known, left: [], underWay };
}

/** How the rehearsal on the screen began. */
type Beginning =
  | { readonly by: 'key'; readonly key: string }
  | { readonly by: 'kept' | 'left'; readonly present: PresentRehearsal }
  | { readonly by: 'again'; readonly origin: Origin };

type Begun = Beginning & {
  readonly number: number;
  /** What there was before, to be brought back. */
  readonly before: PresentRehearsal | null;
};

interface PlannerProps {
  readonly damaged: string | null;
  /** How it begins where it was asked for from the Desk; null: with what was left, or the evening as it stands. */
  readonly first: Beginning | null;
}

function Planner({ damaged, first: asked }: PlannerProps) {
  const evening = useConsole((state) => state.evening);
  const store = useConsoleStore();
  const { connection } = store;
  const live = evening === null || evening.state.phase === 'ended' ? null : evening;
  const [chosen, setChosen] = useState<string | null>(null);
  const library = useLibrary(live === null, chosen);
  const railroad = live?.railroad ?? library.railroad;
  const [begun, setBegun] = useState<Begun>(() => {
    const left = presentRehearsal(store);
    if (asked !== null) return { number: 0, before: left, ...asked };
    const first = { number: 0, before: null };
    return left === null ? { ...first, by: 'key', key: 'live' } : { ...first, by: 'left', present: left };
  });
  const [kept, setKept] = useState<ReplyOf<'keep.list'> | null>(null);
  const [others, setOthers] = useState<ReplyOf<'keep.list'>>([]);
  const readKept = useCallback(async () => {
    const answer = await connection.call('keep.list', { kind: REHEARSALS });
    setKept((before) => (answer.ok ? answer.value : (before ?? [])));
    setOthers(await listAtWork(connection, ownAtWork(store)));
  }, [connection, store]);
  useEffect(() => void readKept(), [readKept]);
  const remember = useCallback(
    (present: Pick<PresentRehearsal, 'rehearsal' | 'keptAs'> | null) =>
      rememberRehearsal(store, present === null ? null : { ...present, evening: evening?.id ?? null }),
    [store, evening?.id],
  );
  // The beginning is taken once: what happens on the Desk meanwhile does not move the rehearsal.
  // biome-ignore lint/correctness/useExhaustiveDependencies: the fork is of the moment in which it was begun
  const origin = useMemo(() => {
    if (begun.by === 'again') return begun.origin;
    if (begun.by !== 'key') return originOfKept(begun.present.rehearsal, begun.by, live);
    if (railroad === null) return null;
    return originOf(begun.key === 'live' && live === null ? 'empty' : begun.key, live, railroad);
  }, [begun, railroad]);
  const begin = (next: Beginning) => {
    const before = presentRehearsal(store);
    // One without a name is not written over by another that is opened.
    if (next.by === 'kept' && before?.keptAs === null) leaveAtWork(store);
    setBegun(({ number }) => ({ number: number + 1, before, ...next }));
  };
  const railroads =
    live === null && library.cards.length > 1
      ? {
          cards: library.cards,
          chosen: library.id,
          problem: library.says ?? undefined,
          onChoose: (id: string) => {
            setChosen(id);
            begin({ by: 'key', key: 'empty' });
          },
        }
      : null;
  const { before } = begun;
  if (origin === null)
    return library.says === null ? null : <EmptyState title="Nothing to rehearse on" says={library.says} />;
  // Its name is one that no kept one has, and nothing is done on a railroad that another was chosen instead of.
  if (kept === null || library.isReading) return null;
  return (
    <RehearsalDesk
      key={`${begun.number} ${begun.by === 'key' && live === null ? library.id : ''}`}
      origin={origin}
      opened={begun.by === 'kept' || begun.by === 'left' ? begun.present : null}
      asks={begun.by === 'again'}
      railroads={railroads}
      kept={kept}
      others={others}
      damaged={damaged}
      live={live}
      onBegin={(key) => begin({ by: 'key', key })}
      onOpen={(rehearsal, keptAs) =>
        begin({ by: 'kept', present: { rehearsal, keptAs, evening: null, at: '' } })
      }
      onKept={() => void readKept()}
      onAgain={(wishes, since) => {
        const now = store.get().evening;
        if (now !== null) begin({ by: 'again', origin: originFromHere(now, wishes, since) });
      }}
      onChange={remember}
      onBefore={before === null ? null : () => begin({ by: 'left', present: before })}
    />
  );
}

/** Plans again from the present what is carried out: asked for from the Desk. What was made real is kept under a name first. */
async function againFromHere(store: ConsoleStore): Promise<Beginning | null> {
  const carried = carryingOf(store).plan()?.rehearsal;
  const { evening } = store.get();
  if (carried?.madeReal == null || evening === null || evening.state.phase === 'ended') return null;
  await keepMadeReal(store.connection, carried, presentRehearsal(store)?.keptAs ?? null);
  const since = sessionSeconds(evening, performance.now()) - carried.madeReal.began;
  return { by: 'again', origin: originFromHere(evening, carried.situation.trains, since) };
}

interface RecalledProps {
  /** Whether the plan that is carried out is to be made again from here. */
  readonly again: boolean;
}

/** What was being worked on is looked for before anything is begun. */
function Recalled({ again }: RecalledProps) {
  const store = useConsoleStore();
  const [recalled, setRecalled] = useState<PlannerProps | null>(null);
  // biome-ignore lint/correctness/useExhaustiveDependencies: it is begun once; its address says afterwards what any other's does
  useEffect(() => {
    let gone = false;
    const recall = async () => {
      const damaged = await recallRehearsal(store, store.get().evening?.id ?? null);
      const first = again ? await againFromHere(store) : null;
      if (gone) return;
      if (again) window.location.replace('#/rehearsal');
      setRecalled({ damaged, first });
    };
    void recall();
    return () => {
      gone = true;
    };
  }, [store]);
  return recalled === null ? null : <Planner {...recalled} />;
}

export function RehearsalScreen() {
  const [part] = screenRest(useHash());
  return part === 'by-hand' ? <ByHand /> : <Recalled again={part === 'again'} />;
}
