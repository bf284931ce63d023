/** A plan made real: its orders go to the live evening one by one, and each is judged again by how the railroad stands then. */
import { useRef, useState } from 'react';
import { clockText } from '../../shared-model/planning/chart/chart-ticks.ts';
import { spokenDestination } from '../../shared-model/session/say.ts';
import { useConsole, useConsoleStore } from '../console/use-console.tsx';
import { Act } from '../parts/act.tsx';
import type { PlanSeen } from './made-plan.ts';
import type { Rehearsal } from './use-rehearsal.ts';
import { trainWords } from './words.ts';

interface MakeRealProps {
  readonly rehearsal: Rehearsal;
  readonly seen: PlanSeen;
}

export function MakeReal({ rehearsal, seen }: MakeRealProps) {
  const store = useConsoleStore();
  const evening = useConsole((state) => state.evening);
  const [made, setMade] = useState(0);
  const [says, setSays] = useState<string | null>(null);
  const sending = useRef(false);
  const { railroad } = rehearsal.origin;
  const { orders } = seen;
  const next = orders[made];

  /** @returns whether it was taken */
  const makeOne = async (index: number): Promise<boolean> => {
    const order = orders[index];
    if (order === undefined) return false;
    const answer = await store.send([{ input: order.input, impliedBy: 'made real from a rehearsal' }]);
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
    if (rehearsal.madeReal === null && event !== undefined && live !== null && index === 0)
      rehearsal.setMadeReal({ evening: live.id, entry: event.entry, began: event.at - order.at });
    setMade(index + 1);
    setSays(
      `Granted: ${trainWords(railroad, order.train)} to ${spokenDestination(railroad, order.input.to)}. Its throws are on the Desk.`,
    );
    return true;
  };
  const once = (work: () => Promise<unknown>) => async () => {
    if (sending.current) return;
    sending.current = true;
    await work();
    sending.current = false;
  };
  const notNow =
    evening === null || evening.state.phase === 'ended'
      ? 'There is no live evening: open one on the Desk.'
      : evening.state.phase !== 'running'
        ? 'The evening does not run now.'
        : seen.faults.length > 0
          ? 'This plan has conflicts.'
          : next === undefined
            ? 'Every order of it was made real.'
            : undefined;
  return (
    <section className="rehearsal-real" aria-label="Make it real">
      <p>
        {orders.length} orders, {made} made real. Each is judged again by how the railroad stands then; the
        throws and reports come after it on the Desk.
      </p>
      <div className="rehearsal-acts">
        <Act onPress={() => void once(() => makeOne(made))()} notNow={notNow}>
          {next === undefined
            ? 'Make the next order real'
            : `Make real: ${trainWords(railroad, next.train)} to ${spokenDestination(railroad, next.input.to)}`}
        </Act>
        <Act
          onPress={() =>
            void once(async () => {
              for (let index = made; index < orders.length; index += 1) if (!(await makeOne(index))) return;
            })()
          }
          notNow={notNow}
        >
          Make real all that can go now
        </Act>
      </div>
      {says === null ? null : <p role="status">{says}</p>}
      <ol className="rehearsal-orders">
        {orders.map((order, index) => (
          <li
            key={`${order.move} ${order.at} ${order.input.to}`}
            data-made={index < made || undefined}
            aria-current={index === made ? 'step' : undefined}
          >
            {clockText(order.at)} {trainWords(railroad, order.train)} to{' '}
            {spokenDestination(railroad, order.input.to)}
            {index < made ? ' · made real' : ''}
          </li>
        ))}
      </ol>
    </section>
  );
}
