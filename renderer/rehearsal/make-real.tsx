/**
 * A plan made real: an order of trains, and no timetable. Each of its orders goes to the live evening when it is its turn, and is judged
 * again by how the railroad stands then; from there another plan can be made at any moment.
 */
import { useEffect, useRef, useState } from 'react';
import { coveredIn } from '../../shared-model/planning/carry-out/covered.ts';
import type { KeptOrder, KeptPlan } from '../../shared-model/planning/carry-out/keep-order.ts';
import { stillGiven, type Turn, turnsOf } from '../../shared-model/planning/carry-out/whose-turn.ts';
import { clockText } from '../../shared-model/planning/chart/chart-ticks.ts';
import { MADE_REAL } from '../../shared-model/planning/rehearsal/plan-orders.ts';
import type { Railroad } from '../../shared-model/railroad/railroad.ts';
import { carryingOf } from '../carrying/carrying.ts';
import { orderWords, waitedWords } from '../carrying/turn-words.ts';
import { useConsole, useConsoleStore, useSessionSeconds } from '../console/use-console.tsx';
import { Act } from '../parts/act.tsx';
import { keptOf } from './kept-rehearsal.ts';
import { LateTrains } from './late-trains.tsx';
import type { PlanSeen } from './made-plan.ts';
import { presentRehearsal } from './present-rehearsal.ts';
import { isSameTrack } from './same-track.ts';
import { useHowFar } from './use-how-far.ts';
import type { Rehearsal } from './use-rehearsal.ts';
import { blockName, trainWords } from './words.ts';

interface MakeRealProps {
  readonly rehearsal: Rehearsal;
  readonly name: string;
  readonly seen: PlanSeen;
  /** Plans again from how the live evening stands; seconds since this plan's beginning. */
  readonly onAgain: (since: number) => void;
  /** Told the blocks of the order that is next. */
  readonly onNext: (blocks: readonly string[]) => void;
}

/** "Not its turn until No. 3 has left 5 Mill, and No. 7 to Quarry is given." */
const heldWords = (railroad: Railroad, turn: Turn): string =>
  turn.is === 'held' ? `Not its turn until ${waitedWords(railroad, turn)}.` : '';

/** The blocks that an order takes its train into. */
const blocksOf = ({ ways }: KeptPlan, { order, enters }: KeptOrder): readonly string[] =>
  enters.flatMap((stay) => ways.get(order.train)?.[stay] ?? []);

function MakeReal({ rehearsal, name, seen, onAgain, onNext }: MakeRealProps) {
  const store = useConsoleStore();
  const evening = useConsole((state) => state.evening);
  const seconds = useSessionSeconds(evening);
  const [says, setSays] = useState<string | null>(null);
  const sending = useRef(false);
  const { railroad } = rehearsal.origin;
  const { orders, kept } = seen;
  const made =
    rehearsal.madeReal?.plan === rehearsal.chosen && rehearsal.madeReal.evening === evening?.id
      ? rehearsal.madeReal
      : null;
  // Several orders may go before the screen is drawn again.
  const madeNow = useRef(made);
  madeNow.current = made;
  const far = useHowFar(kept, made, evening);
  const turnsNow = (): readonly Turn[] => {
    const live = store.get().evening;
    const given = madeNow.current?.given ?? [];
    if (live === null) return turnsOf(kept, far, new Set(given));
    const covered = madeNow.current === null ? [] : coveredIn(kept, far, live.state);
    return turnsOf(kept, far, new Set([...covered, ...stillGiven(kept, far, given, live.state)]));
  };
  const turns = turnsNow();
  const done = turns.filter(({ is }) => is === 'given').length;
  const next = turns.findIndex(({ is }) => is === 'next');
  const since = made === null ? 0 : seconds - made.began;
  const strayed = [...far].filter(([, { astray }]) => astray !== null);

  /** @returns whether it was taken */
  const makeOne = async (index: number): Promise<boolean> => {
    const order = orders[index];
    if (order === undefined) return false;
    const answer = await store.send([{ input: order.input, impliedBy: MADE_REAL }]);
    if (!answer.ok) {
      setSays(answer.problem.says);
      return false;
    }
    const { events, refused } = answer.value;
    if (refused !== null) {
      setSays(
        `Refused now, as the railroad stands: ${refused.reasons.map((reason) => reason.says).join(' ')}`,
      );
      return false;
    }
    const [event] = events;
    const live = store.get().evening;
    if (event !== undefined && live !== null) {
      const before = madeNow.current;
      madeNow.current = {
        evening: live.id,
        entry: before?.entry ?? event.entry,
        began: before?.began ?? event.at - order.at,
        plan: rehearsal.chosen,
        given: [...(before?.given ?? []), index],
      };
      rehearsal.setMadeReal(madeNow.current);
      const title = presentRehearsal(store)?.rehearsal.name ?? name;
      carryingOf(store).begin(keptOf({ ...rehearsal, madeReal: madeNow.current }, title));
    }
    setSays(
      `Granted: ${orderWords(railroad, order)}. Its throws are on the Desk, which offers the next when it has its turn.`,
    );
    return true;
  };
  const once = (work: () => Promise<unknown>) => async () => {
    if (sending.current) return;
    sending.current = true;
    await work();
    sending.current = false;
  };
  const allThatCan = async () => {
    for (;;) {
      const place = turnsNow().findIndex(({ is }) => is === 'next');
      if (place < 0 || !(await makeOne(place))) return;
    }
  };
  const notLive =
    evening === null || evening.state.phase === 'ended'
      ? 'There is no live evening: open one on the Desk.'
      : evening.state.phase !== 'running'
        ? 'The evening does not run now.'
        : isSameTrack(evening.railroad, railroad)
          ? undefined
          : `The live evening is on ${evening.railroad.document.name}, and this is not its track and wiring.`;
  const wrong = notLive ?? (seen.faults.length > 0 ? 'This plan has conflicts.' : undefined);
  const notNow =
    wrong ??
    (done === orders.length
      ? 'Every order of it was made real.'
      : next < 0
        ? 'None has its turn yet: what each waits for stands beside it.'
        : undefined);
  const first = orders[next];
  useEffect(() => {
    const order = kept.orders[next];
    onNext(order === undefined ? [] : blocksOf(kept, order));
    return () => onNext([]);
  }, [kept, next, onNext]);
  return (
    <section className="rehearsal-real" aria-label="Make it real">
      <p>
        {name}: {orders.length} orders, {done} made real. Kept as an order of trains: a late one holds up only
        who comes after it. Each is judged again by how the railroad stands then; its throws come on the Desk.
      </p>
      <div className="rehearsal-acts">
        <Act onPress={() => void once(() => makeOne(next))()} notNow={notNow}>
          {first === undefined ? 'Make the next order real' : `Make real: ${orderWords(railroad, first)}`}
        </Act>
        <Act onPress={() => void once(allThatCan)()} notNow={notNow}>
          Make real all that can go now
        </Act>
        <Act kind="calm" onPress={() => onAgain(since)} notNow={notLive}>
          Plan again from here
        </Act>
        <a className="rehearsal-link" href="#/desk">
          To the Desk, for throws and reports
        </a>
      </div>
      {notNow === undefined ? null : <p>{notNow}</p>}
      {says === null ? null : <p role="status">{says}</p>}
      {made === null ? null : (
        <LateTrains railroad={railroad} seen={seen} far={far} turns={turns} since={since} />
      )}
      {strayed.length === 0 ? null : (
        <ul role="alert" className="rehearsal-problem">
          {strayed.map(([train, { astray }]) => (
            <li key={train}>
              {trainWords(railroad, train)} is in {blockName(railroad, astray ?? '')}, which is not on its way
              in this plan. Plan again from here.
            </li>
          ))}
        </ul>
      )}
      <ol className="rehearsal-orders">
        {orders.map((order, index) => {
          const turn = turns[index] ?? { is: 'given' };
          return (
            <li
              key={`${order.move} ${order.at} ${order.input.to}`}
              data-turn={turn.is}
              aria-current={index === next ? 'step' : undefined}
            >
              <span className="rehearsal-turn">
                {turn.is === 'given' ? '✓ made real' : turn.is === 'next' ? '▶ its turn' : '‖ held'}
              </span>
              <span>
                {clockText(order.at)} {orderWords(railroad, order)}
                {turn.is === 'next' && made !== null && since >= order.at + 1
                  ? `, due ${clockText(since - order.at)} ago`
                  : ''}
                {turn.is === 'held' ? <span className="quiet"> {heldWords(railroad, turn)}</span> : null}
              </span>
              {turn.is === 'next' && index !== next ? (
                <Act
                  kind="calm"
                  label={`Make real: ${orderWords(railroad, order)}`}
                  onPress={() => void once(() => makeOne(index))()}
                  notNow={wrong}
                >
                  Make real
                </Act>
              ) : null}
            </li>
          );
        })}
      </ol>
    </section>
  );
}

/** The orders of the plan that is looked at. */
export function RealSheet({ rehearsal, onAgain, onNext }: Omit<MakeRealProps, 'name' | 'seen'>) {
  const { plans, chosen, seen } = rehearsal;
  const plan = plans[chosen];
  if (plan === undefined || seen === null)
    return <p>No plan yet. Give the trains somewhere to go, then ask “In which order?”.</p>;
  return (
    <MakeReal
      key={`${plan.name} ${chosen}`}
      rehearsal={rehearsal}
      name={plan.name}
      seen={seen}
      onAgain={onAgain}
      onNext={onNext}
    />
  );
}
