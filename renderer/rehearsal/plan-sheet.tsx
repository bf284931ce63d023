/** "In which order?": the planner at work, the plans side by side, the chart of the one looked at, its steps, and making it real. */
import { useDeferredValue, useState } from 'react';
import { clockText } from '../../shared-model/planning/chart/chart-ticks.ts';
import { planAnswer, plannerEnded } from '../../shared-model/wire/planner.ts';
import { Act } from '../parts/act.tsx';
import { NumberBox } from '../parts/field.tsx';
import type { PlanKept } from './made-plan.ts';
import { PlanSteps } from './plan-steps.tsx';
import { PlanTable } from './plan-table.tsx';
import { PlansSideBySide } from './plans-side-by-side.tsx';
import { TimeChart } from './time-chart.tsx';
import type { Rehearsal } from './use-rehearsal.ts';
import { faultWords } from './words.ts';

/** @param others whether plans are there already, from which this one was to differ */
function NoPlan({ answer, others }: { readonly answer: unknown; readonly others: boolean }) {
  const ended = plannerEnded.safeParse(answer);
  if (ended.success && 'fault' in ended.data)
    return <p role="status">It could not be worked out: {ended.data.fault}</p>;
  if (ended.success && 'cancelled' in ended.data && ended.data.best === null)
    return <p role="status">Stopped before a plan was found.</p>;
  const plan = planAnswer.safeParse(ended.success && 'cancelled' in ended.data ? ended.data.best : answer);
  if (plan.success && plan.data.verdict === 'impossible')
    return (
      <p role="status">
        <strong className="rehearsal-verdict">Impossible.</strong> No order of moves brings every train there:
        every one was tried. “Can I?” says which trains lock each other.
      </p>
    );
  if (plan.success && plan.data.verdict === 'planned')
    return (
      <p role="status">
        {ended.success
          ? 'Stopped: this is the best so far.'
          : plan.data.proven
            ? 'Found, and no plan takes less.'
            : 'Found; a better one was not ruled out.'}
      </p>
    );
  return (
    <p role="status">
      <strong className="rehearsal-verdict">Not decided.</strong>{' '}
      {others
        ? 'No plan was found that differs from those below in a way or in who goes first; there may be one all the same.'
        : 'No plan was found in the time; there may be one all the same.'}
    </p>
  );
}

export function Planning({ rehearsal }: { readonly rehearsal: Rehearsal }) {
  const { options, changeOptions } = rehearsal;
  const { state } = rehearsal.planning;
  return (
    <div className="rehearsal-planning">
      {state.is === 'wrong' ? <p role="alert">{state.says}</p> : null}
      {state.is === 'answered' ? <NoPlan answer={state.answer} others={rehearsal.plans.length > 0} /> : null}
      <details className="rehearsal-options">
        <summary>Hands and voice</summary>
        <div className="rehearsal-acts">
          <NumberBox
            label="a throw takes"
            value={options.throwSeconds}
            least={0}
            most={60}
            unit="s"
            onChange={(throwSeconds) => changeOptions({ throwSeconds })}
          />
          <NumberBox
            label="most throws in a minute"
            value={options.throwsPerMinute}
            least={1}
            most={60}
            onChange={(throwsPerMinute) => changeOptions({ throwsPerMinute: Math.round(throwsPerMinute) })}
          />
          <NumberBox
            label="words before a move"
            value={options.talkSeconds}
            least={0}
            most={120}
            unit="s"
            onChange={(talkSeconds) => changeOptions({ talkSeconds })}
          />
          <NumberBox
            label="lost at a start"
            value={options.startSeconds}
            least={0}
            most={120}
            unit="s"
            onChange={(startSeconds) => changeOptions({ startSeconds })}
          />
          <NumberBox
            label="kept between"
            value={options.marginSeconds}
            least={0}
            most={60}
            unit="s"
            onChange={(marginSeconds) => changeOptions({ marginSeconds })}
          />
        </div>
      </details>
    </div>
  );
}

/** The best plan so far, while a better one is looked for: to be seen, not to be worked with. */
function SoFar({ rehearsal, plan }: { readonly rehearsal: Rehearsal; readonly plan: PlanKept }) {
  // It comes again and again: what is pressed meanwhile goes before it.
  const shown = useDeferredValue(plan);
  const seen = rehearsal.seeing(shown);
  if (seen === null) return null;
  return (
    <>
      <p>
        The best so far: arrivals together {clockText(shown.answer.total ?? 0)}, {shown.answer.moves.length}{' '}
        moves, {shown.answer.throws.length} throws.
      </p>
      <TimeChart
        railroad={rehearsal.origin.railroad}
        plan={shown}
        chart={seen.chart}
        cabs={cabsOf(rehearsal)}
        now={null}
        onDrag={null}
      />
    </>
  );
}

const cabsOf = ({ json }: Rehearsal): ReadonlyMap<string, string> =>
  new Map(json.trains.map(({ train, cab }) => [train, cab]));

interface PlanSheetProps {
  readonly rehearsal: Rehearsal;
  readonly step: number;
  readonly onStep: (step: number) => void;
  /** Goes to where the orders are given. */
  readonly onReal: () => void;
}

export function PlanSheet({ rehearsal, step, onStep, onReal }: PlanSheetProps) {
  const { plans, chosen, seen, origin, drag } = rehearsal;
  const [asTable, setAsTable] = useState(false);
  const plan = plans[chosen];
  if (rehearsal.bestSoFar !== null) return <SoFar rehearsal={rehearsal} plan={rehearsal.bestSoFar} />;
  if (plan === undefined || seen === null) return null;
  const { conflicts } = seen.chart;
  const now = seen.played.steps[step - 1]?.at ?? null;
  return (
    <>
      <PlansSideBySide rehearsal={rehearsal} />
      <TimeChart
        railroad={origin.railroad}
        plan={plan}
        chart={seen.chart}
        cabs={cabsOf(rehearsal)}
        now={now}
        onDrag={drag}
      />
      {/* biome-ignore-start lint/a11y/noNoninteractiveTabindex: many conflicts scroll, which the keyboard has to reach */}
      <section
        className="rehearsal-conflicts"
        aria-label="Conflicts"
        data-count={conflicts.length}
        tabIndex={conflicts.length === 0 ? undefined : 0}
      >
        {/* biome-ignore-end lint/a11y/noNoninteractiveTabindex: as above */}
        {conflicts.length === 0 ? (
          <p role="status">No conflict: the independent check finds nothing wrong with {plan.name}.</p>
        ) : (
          <>
            <p role="status">
              <strong>
                {conflicts.length === 1 ? '1 conflict' : `${conflicts.length} conflicts`} in {plan.name}:
              </strong>
            </p>
            <ul>
              {conflicts.map(({ fault }, index) => (
                // biome-ignore lint/suspicious/noArrayIndexKey: the list is the checker's, in its order
                <li key={index}>
                  {fault.at === null ? '' : `${clockText(fault.at)} `}
                  {faultWords(origin.railroad, fault)}
                </li>
              ))}
            </ul>
          </>
        )}
      </section>
      <p className="fine quiet">
        A start is dragged by its badge, or by the arrow keys on it (Shift: ten seconds). Outline: from the
        first throw for a block until it is given back; filled: the train is in it.{' '}
        <Act kind="calm" pressed={asTable} onPress={() => setAsTable(!asTable)}>
          As a table
        </Act>
      </p>
      <div className={asTable ? undefined : 'unseen'}>
        <PlanTable railroad={origin.railroad} plan={plan} seen={seen} />
      </div>
      <PlanSteps railroad={origin.railroad} seen={seen} step={step} onStep={onStep} />
      <div className="rehearsal-acts">
        <Act onPress={onReal}>Make it real, order by order</Act>
      </div>
    </>
  );
}
