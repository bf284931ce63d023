/** The live evening as a Desk looks at it. */
import { useCallback, useMemo } from 'react';
import type { BatchItem } from '../../shared-model/session/batch.ts';
import { carryingOf } from '../carrying/carrying.ts';
import { useCarrying } from '../carrying/use-carrying.ts';
import type { FollowedEvening } from '../console/followed-evening.ts';
import { useConsole, useConsoleStore, useSessionSeconds } from '../console/use-console.tsx';
import { clockTime, type DeskMoment, type DeskSource, type PlanAct, type Sent } from './desk-source.ts';

/** Where the plan is made again from the present. */
const PLAN_AGAIN = '#/rehearsal/again';

export interface LiveSource extends DeskSource {
  /** Which evening it is: another one is another Desk. */
  readonly id: string;
}

const AGAIN = { page: 'This page began anew', console: 'The console was started again' } as const;

/** "The console was started again: the evening goes on where it was at 20:14, after 41 entries." */
function foundWords(
  found: keyof typeof AGAIN | null,
  { openedAt, state }: Pick<FollowedEvening, 'openedAt' | 'state'>,
): string | null {
  if (found === null) return null;
  const when = clockTime(openedAt, state.at);
  return `${AGAIN[found]}: the evening goes on where it was at ${when}, after ${state.entries} entries. Nothing is lost.`;
}

/** @returns null while no evening is open */
export function useLiveSource(): LiveSource | null {
  const store = useConsoleStore();
  const evening = useConsole((state) => state.evening);
  const seconds = useSessionSeconds(evening);
  const send = useCallback(
    async (items: readonly BatchItem[]): Promise<Sent> => {
      carryingOf(store).seen();
      const answer = await store.send(items);
      if (!answer.ok) return { events: [], refused: null, problem: answer.problem.says };
      return { ...answer.value, problem: null };
    },
    [store],
  );
  const latest = useCallback((): DeskMoment => {
    const now = store.get().evening ?? evening;
    if (now === null) throw new Error('a Desk is drawn without an evening');
    return { ...now, plan: carryingOf(store).get().now };
  }, [store, evening]);
  const carrying = useCarrying();
  const found = useConsole((state) => state.found);
  const notice = useMemo(() => (evening === null ? null : foundWords(found, evening)), [found, evening]);
  if (evening === null) return null;
  const { id, railroad, state, recent, openedAt, resumed } = evening;
  const noticeSeen = () => {
    store.foundSeen();
    carryingOf(store).seen();
  };
  const doPlan = (does: PlanAct) => {
    if (does === 'again') window.location.hash = PLAN_AGAIN;
    else carryingOf(store).putAside(does === 'aside');
  };
  return {
    kind: 'live',
    id,
    railroad,
    state,
    recent,
    seconds,
    openedAt,
    resumed,
    notice: carrying.says ?? notice,
    plan: carrying.now,
    planAside: carrying.aside,
    doPlan,
    noticeSeen,
    latest,
    send,
  };
}
