/** Rehearsal by hand: a fork of the live state on the Desk itself, visibly not live. Nothing of it is in the evening's log, until its orders are made real one by one, judged again. */
import { useCallback, useRef, useState } from 'react';
import { lookAhead } from '../../shared-model/planning/look-ahead.ts';
import type { BatchItem } from '../../shared-model/session/batch.ts';
import { type Evening, problemWith, takeBatch } from '../../shared-model/session/evening.ts';
import type { SessionEvent } from '../../shared-model/session/event.ts';
import { isObservation } from '../../shared-model/session/input.ts';
import type { FollowedEvening } from '../console/followed-evening.ts';
import { useConsole, useConsoleStore, useSessionSeconds } from '../console/use-console.tsx';
import type { DeskSource, Sent } from '../desk/desk-source.ts';
import { DeskView } from '../desk/desk-view.tsx';
import { Act } from '../parts/act.tsx';
import { EmptyState } from '../parts/empty-state.tsx';

const forkOf = ({ railroad, state }: FollowedEvening): Evening => ({
  railroad,
  state,
  initial: state,
  events: [],
  lookAhead,
});

/** The orders of a rehearsal that were carried out; what was only reported in it did not happen. */
function ordersOf(events: readonly SessionEvent[]): readonly SessionEvent[] {
  return events.filter(
    ({ input, outcome }) => outcome !== 'refused' && !isObservation(input) && input.do !== 'advance',
  );
}

function Fork({ live, onDiscard }: { readonly live: FollowedEvening; readonly onDiscard: () => void }) {
  const store = useConsoleStore();
  const [fork, setFork] = useState(() => forkOf(live));
  // What is sent one after the other looks at the fork as it is at that moment, drawn already or not.
  const now = useRef(fork);
  const [made, setMade] = useState(0);
  const [says, setSays] = useState<string | null>(null);
  const seconds = useSessionSeconds(live);
  const send = useCallback(
    async (items: readonly BatchItem[]): Promise<Sent> => {
      const before = now.current;
      for (const { input } of items) {
        const problem = problemWith(before.railroad, before.state, input);
        if (problem !== null) return { events: [], refused: null, problem };
      }
      const taken = takeBatch(before, Math.max(seconds, before.state.at), items);
      now.current = taken.evening;
      setFork(taken.evening);
      return taken.ok
        ? { events: taken.events, refused: null, problem: null }
        : { events: [taken.event], refused: taken.event, problem: null };
    },
    [seconds],
  );
  const orders = ordersOf(fork.events);
  const nextOrder = orders[made];
  const makeReal = async () => {
    if (nextOrder === undefined) return;
    const answer = await store.send([{ input: nextOrder.input, impliedBy: 'made real from a rehearsal' }]);
    if (!answer.ok) setSays(answer.problem.says);
    else if (answer.value.refused !== null)
      setSays(`Refused now: ${answer.value.refused.reasons.map((reason) => reason.says).join(' ')}`);
    else {
      setMade(made + 1);
      setSays(`Made real: ${nextOrder.input.do.replaceAll('-', ' ')}.`);
    }
  };
  const source: DeskSource = {
    kind: 'rehearsal',
    railroad: fork.railroad,
    state: fork.state,
    recent: fork.events,
    seconds: Math.max(seconds, fork.state.at),
    openedAt: live.openedAt,
    resumed: false,
    latest: () => ({ ...now.current, recent: now.current.events }),
    send,
  };
  return (
    <DeskView
      source={source}
      above={
        <section className="desk-above" aria-label="Rehearsal">
          <strong>Rehearsal: nothing here is live.</strong>
          <a className="rehearsal-link" href="#/rehearsal">
            Ask and plan
          </a>
          <Act kind="calm" onPress={onDiscard}>
            Discard it
          </Act>
          <Act
            kind="calm"
            onPress={() => void makeReal()}
            notNow={nextOrder === undefined ? 'No order of this rehearsal is left to make real.' : undefined}
          >
            Make real: {nextOrder?.input.do.replaceAll('-', ' ') ?? 'nothing'} ({orders.length - made} left)
          </Act>
          {says === null ? null : <span role="status">{says}</span>}
        </section>
      }
    />
  );
}

export function ByHand() {
  const evening = useConsole((state) => state.evening);
  const [forks, setForks] = useState(0);
  if (evening === null || evening.state.phase === 'ended')
    return (
      <EmptyState
        title="Nothing to rehearse from"
        says="By hand a rehearsal starts from the live evening: open one on the Desk first, or ask and plan without one."
      >
        <a className="rehearsal-link" href="#/rehearsal">
          Ask and plan
        </a>
      </EmptyState>
    );
  return <Fork key={`${evening.id} ${forks}`} live={evening} onDiscard={() => setForks(forks + 1)} />;
}
