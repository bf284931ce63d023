/** Rehearsal by hand: a fork of the live state on the Desk itself, visibly not live. Nothing of it is in the evening's log, until its orders are made real one by one, judged again. */
import { useCallback, useRef, useState } from 'react';
import { eventWords } from '../../shared-model/logbook/event-words.ts';
import { lookAhead } from '../../shared-model/planning/look-ahead.ts';
import { grantedIn, handOrders, realOrder } from '../../shared-model/planning/rehearsal/hand-orders.ts';
import type { BatchItem } from '../../shared-model/session/batch.ts';
import { problemWith, takeBatch } from '../../shared-model/session/evening.ts';
import type { FollowedEvening } from '../console/followed-evening.ts';
import { useConsole, useConsoleStore, useSessionSeconds } from '../console/use-console.tsx';
import type { DeskSource, Sent } from '../desk/desk-source.ts';
import { DeskView } from '../desk/desk-view.tsx';
import { Act } from '../parts/act.tsx';
import { EmptyState } from '../parts/empty-state.tsx';
import { type PlayedFork, presentFork, rememberFork } from './present-fork.ts';

const forkOf = ({ id, railroad, state }: FollowedEvening): PlayedFork => ({
  of: id,
  evening: { railroad, state, initial: state, events: [], lookAhead },
  done: new Set(),
  names: new Map(),
});

function Fork({ live, onAnew }: { readonly live: FollowedEvening; readonly onAnew: () => void }) {
  const store = useConsoleStore();
  const [fork, setFork] = useState(() => presentFork(store, live.id) ?? forkOf(live));
  // What is sent one after the other looks at the fork as it is at that moment, drawn already or not.
  const now = useRef(fork);
  const change = useCallback(
    (part: Partial<PlayedFork>) => {
      now.current = { ...now.current, ...part };
      rememberFork(store, now.current);
      setFork(now.current);
    },
    [store],
  );
  const [says, setSays] = useState<string | null>(null);
  const making = useRef(false);
  const seconds = useSessionSeconds(live);
  const send = useCallback(
    async (items: readonly BatchItem[]): Promise<Sent> => {
      const before = now.current.evening;
      for (const { input } of items) {
        const problem = problemWith(before.railroad, before.state, input);
        if (problem !== null) return { events: [], refused: null, problem };
      }
      const taken = takeBatch(before, Math.max(seconds, before.state.at), items);
      change({ evening: taken.evening });
      return taken.ok
        ? { events: taken.events, refused: null, problem: null }
        : { events: [taken.event], refused: taken.event, problem: null };
    },
    [seconds, change],
  );
  const { evening, done } = fork;
  const left = handOrders(evening.events).filter(({ entry }) => !done.has(entry));
  const next = left[0];
  const words =
    next === undefined ? 'nothing' : eventWords(evening.railroad, evening.state, next).replace(/\?$/, '');
  const doneWith = (entry: number) => change({ done: new Set([...now.current.done, entry]) });
  const makeReal = async () => {
    if (next === undefined || making.current) return;
    const { names } = now.current;
    const input = realOrder(next, names, grantedIn(evening.events));
    if (input === null)
      return setSays('It is about an order of this rehearsal that was not made real: leave it out.');
    making.current = true;
    const answer = await store.send([{ input, impliedBy: 'made real from a rehearsal' }]);
    making.current = false;
    if (!answer.ok) return setSays(answer.problem.says);
    const { refused, events } = answer.value;
    if (refused !== null)
      return setSays(`Refused now: ${refused.reasons.map((reason) => reason.says).join(' ')}`);
    const granted = events[0]?.authority;
    if (next.authority !== undefined && granted !== undefined)
      change({ names: new Map([...names, [next.authority, granted]]) });
    doneWith(next.entry);
    setSays(`Made real: ${words}. Its throws and read-back come on the live Desk.`);
  };
  const source: DeskSource = {
    kind: 'rehearsal',
    railroad: evening.railroad,
    state: evening.state,
    recent: evening.events,
    seconds: Math.max(seconds, evening.state.at),
    openedAt: live.openedAt,
    resumed: false,
    latest: () => ({ ...now.current.evening, recent: now.current.evening.events }),
    send,
  };
  const none = next === undefined ? 'No order of this rehearsal is left to make real.' : undefined;
  return (
    <DeskView
      source={source}
      above={
        <section className="desk-above" aria-label="Rehearsal">
          <strong>Rehearsal: nothing here is live.</strong>
          <Act kind="calm" onPress={() => void makeReal()} notNow={none}>
            Make real: {words}
            {left.length > 1 ? ` (1 of ${left.length})` : ''}
          </Act>
          <Act
            kind="calm"
            label={`Leave out: ${words}`}
            onPress={() => {
              if (next !== undefined) doneWith(next.entry);
              setSays(null);
            }}
            notNow={none}
          >
            Leave it out
          </Act>
          <Act
            kind="calm"
            onPress={onAnew}
            notNow={evening.events.length === 0 ? 'Nothing was done in it yet.' : undefined}
          >
            Discard it, begin anew from now
          </Act>
          <a className="rehearsal-link" href="#/rehearsal">
            Ask and plan
          </a>
          {says === null ? null : <span role="status">{says}</span>}
        </section>
      }
    />
  );
}

export function ByHand() {
  const store = useConsoleStore();
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
  return (
    <Fork
      key={`${evening.id} ${forks}`}
      live={evening}
      onAnew={() => {
        rememberFork(store, forkOf(store.get().evening ?? evening));
        setForks(forks + 1);
      }}
    />
  );
}
