/** Rehearsal by hand: a fork of the live state on the Desk itself, visibly not live. Nothing of it is in the evening's log, until its orders are made real one by one, judged again. */
import { useCallback, useEffect, useRef, useState } from 'react';
import { eventWords } from '../../shared-model/logbook/event-words.ts';
import { grantedIn, handOrders, realOrder } from '../../shared-model/planning/rehearsal/hand-orders.ts';
import { MADE_REAL } from '../../shared-model/planning/rehearsal/plan-orders.ts';
import type { BatchItem } from '../../shared-model/session/batch.ts';
import type { ConsoleStore } from '../console/console-store.ts';
import type { FollowedEvening } from '../console/followed-evening.ts';
import { useConsole, useConsoleStore, useSessionSeconds } from '../console/use-console.tsx';
import { useKnownOf } from '../console/use-known-of.ts';
import type { DeskSource, Sent } from '../desk/desk-source.ts';
import { DeskView } from '../desk/desk-view.tsx';
import { Act } from '../parts/act.tsx';
import { EmptyState } from '../parts/empty-state.tsx';
import { whenText } from '../parts/when-text.ts';
import {
  forkOf,
  forkSavesOf,
  type PlayedFork,
  playedOn,
  presentFork,
  type Recalled,
  recallFork,
  rememberFork,
} from './present-fork.ts';
import { useHandKeys } from './use-hand-keys.ts';
import { useNotWritten } from './written-down.ts';

const isCalledAloud = ({ input }: BatchItem): boolean =>
  input.do === 'stop-all' && input.kind === 'emergency';

/**
 * Called aloud it stops everybody in the room, wherever the console stands: it is never a rehearsal.
 *
 * @returns what came of it, in words; null where the live evening is not running
 */
async function callLive(store: ConsoleStore, call: BatchItem): Promise<string | null> {
  if (store.get().evening?.state.phase !== 'running') return null;
  const answer = await store.send([call]);
  const refused = answer.ok ? answer.value.refused : null;
  if (answer.ok && refused === null) return 'CALL ALL STOP went to the live evening, too: it is stopped.';
  const why = answer.ok ? refused?.reasons.map(({ says }) => says).join(' ') : answer.problem.says;
  return `CALL ALL STOP is not in the live evening’s log: ${why}`;
}

interface ForkProps {
  readonly live: FollowedEvening;
  /** How it was found, said until something is done. */
  readonly found: string | null;
  readonly onAnew: () => void;
}

function Fork({ live, found, onAnew }: ForkProps) {
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
  const [says, setSays] = useState(found);
  const making = useRef(false);
  const notWritten = useNotWritten(forkSavesOf(store));
  const seconds = useSessionSeconds(live);
  const send = useCallback(
    async (items: readonly BatchItem[]): Promise<Sent> => {
      const before = now.current.evening;
      const call = items.find(isCalledAloud);
      // In a copy that stands already there is nothing more to stop; the live evening may be running.
      if (call !== undefined && before.state.phase !== 'running') {
        setSays(await callLive(store, call));
        return { events: [], refused: null, problem: null };
      }
      const next = playedOn(now.current, { at: Math.max(seconds, before.state.at), items });
      if (typeof next === 'string') return { events: [], refused: null, problem: next };
      const { fork: played, taken } = next;
      change(played);
      setSays(null);
      if (call !== undefined) setSays(await callLive(store, call));
      return taken.ok
        ? { events: taken.events, refused: null, problem: null }
        : { events: [taken.event], refused: taken.event, problem: null };
    },
    [seconds, change, store],
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
    const answer = await store.send([{ input, impliedBy: MADE_REAL }]);
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
  const leaveOut = () => {
    // What is on its way to the live evening is not left out any more.
    if (next === undefined || making.current) return;
    doneWith(next.entry);
    setSays(null);
  };
  const isFresh = evening.events.length === 0;
  const beginAnew = () => {
    // What is on its way to the live evening comes back to this copy, and would put it in the place of the new one.
    if (!isFresh && !making.current) onAnew();
  };
  useHandKeys({ makeReal: () => void makeReal(), leaveOut, beginAnew });
  const none = next === undefined ? 'No order of this rehearsal is left to make real.' : undefined;
  return (
    <DeskView
      source={source}
      above={
        <section className="desk-above" aria-label="Rehearsal">
          <strong>Rehearsal: nothing here is live.</strong>
          <Act kind="calm" keyName="Ctrl+Enter" onPress={() => void makeReal()} notNow={none}>
            Make real: {words}
            {left.length > 1 ? ` (1 of ${left.length})` : ''}
          </Act>
          <Act kind="calm" label={`Leave out: ${words}`} keyName="Ctrl+Del" onPress={leaveOut} notNow={none}>
            Leave it out
          </Act>
          <Act
            kind="calm"
            keyName="Ctrl+⌫"
            onPress={beginAnew}
            notNow={isFresh ? 'Nothing was done in it yet.' : undefined}
          >
            Discard it, begin anew from now
          </Act>
          <a className="rehearsal-link" href="#/rehearsal">
            Ask and plan
          </a>
          {says === null ? null : <span role="status">{says}</span>}
          {notWritten === null ? null : (
            <span role="alert">It is here alone, and not written down: {notWritten}</span>
          )}
        </section>
      }
    />
  );
}

/** "From 19:42, as it was left."; and what cannot be read, where something cannot. */
function foundWords({ at, problem }: Recalled): string | null {
  const left = at === null ? [] : [`From ${whenText(Date.parse(at), Date.now())}, as it was left.`];
  const words = problem === null ? left : [...left, problem];
  return words.length === 0 ? null : words.join(' ');
}

export function ByHand() {
  const store = useConsoleStore();
  const evening = useConsole((state) => state.evening);
  const [forks, setForks] = useState(0);
  const [recalled, setRecalled] = useKnownOf<Recalled>(evening?.id ?? '');
  // Of one evening it is looked for once, however that goes on.
  // biome-ignore lint/correctness/useExhaustiveDependencies: another state of the same evening is not looked for anew
  useEffect(() => {
    if (evening !== null) void recallFork(store, evening).then(setRecalled);
  }, [store, evening?.id, setRecalled]);
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
  if (recalled === null) return null;
  return (
    <Fork
      key={`${evening.id} ${forks}`}
      live={evening}
      found={forks === 0 ? foundWords(recalled) : null}
      onAnew={() => {
        rememberFork(store, forkOf(store.get().evening ?? evening));
        setForks(forks + 1);
      }}
    />
  );
}
