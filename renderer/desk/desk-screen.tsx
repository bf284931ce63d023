/** The Desk on the live evening. */
import { useCallback } from 'react';
import type { BatchItem } from '../../shared-model/session/batch.ts';
import { useConsole, useConsoleStore, useSessionSeconds } from '../console/use-console.tsx';
import type { DeskSource, Sent } from './desk-source.ts';
import { DeskView } from './desk-view.tsx';
import { OpenEvening } from './open-evening.tsx';
import './desk.css';

export function DeskScreen() {
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
  if (evening === null) return <OpenEvening />;
  const source: DeskSource = {
    kind: 'live',
    railroad: evening.railroad,
    state: evening.state,
    recent: evening.recent,
    seconds,
    openedAt: evening.openedAt,
    resumed: evening.resumed,
    send,
  };
  if (evening.state.phase === 'ended')
    return (
      <DeskView
        source={source}
        above={
          <div className="desk-above">
            <OpenEvening />
          </div>
        }
      />
    );
  return <DeskView key={evening.id} source={source} />;
}
