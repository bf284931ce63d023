/** "In which order?": the planner at work, the plans side by side, the chart of the one looked at, its steps, and making it real. */
import { useDeferredValue, useState } from 'react';
import { clockText } from '../../shared-model/planning/chart/chart-ticks.ts';
import { Act } from '../parts/act.tsx';
import type { PlanKept } from './made-plan.ts';
import { PlanSteps } from './plan-steps.tsx';
import { PlanTable } from './plan-table.tsx';
import { Planning } from './planning.tsx';
import { PlansSideBySide } from './plans-side-by-side.tsx';
import { TimeChart } from './time-chart.tsx';
import type { Rehearsal } from './use-rehearsal.ts';
import { faultWords } from './words.ts';

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
        seen={seen}
        cabs={cabsOf(rehearsal)}
        isEven={false}
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
  /** The board is put away, so that the chart has its room. */
  readonly isAlone: boolean;
  readonly onAlone: (isAlone: boolean) => void;
}

export function PlanSheet({ rehearsal, step, onStep, onReal, isAlone, onAlone }: PlanSheetProps) {
  const { plans, chosen, seen, origin, drag } = rehearsal;
  const [asTable, setAsTable] = useState(false);
  const [isEven, setEven] = useState(false);
  const plan = plans[chosen];
  if (rehearsal.bestSoFar !== null)
    return (
      <>
        <Planning rehearsal={rehearsal} />
        <SoFar rehearsal={rehearsal} plan={rehearsal.bestSoFar} />
      </>
    );
  if (plan === undefined || seen === null) return <Planning rehearsal={rehearsal} />;
  const { conflicts } = seen.chart;
  const now = seen.played.steps[step - 1]?.at ?? null;
  return (
    <>
      <Planning rehearsal={rehearsal}>
        <Act kind="calm" pressed={isAlone} onPress={() => onAlone(!isAlone)}>
          Without the board
        </Act>
        <Act kind="calm" pressed={isEven} onPress={() => setEven(!isEven)}>
          Rows alike
        </Act>
        <Act kind="calm" pressed={asTable} onPress={() => setAsTable(!asTable)}>
          As a table
        </Act>
      </Planning>
      <PlansSideBySide rehearsal={rehearsal} />
      <TimeChart
        railroad={origin.railroad}
        plan={plan}
        seen={seen}
        cabs={cabsOf(rehearsal)}
        isEven={isEven}
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
        Distance is to scale: the steeper a line, the faster its train (a zigzag beside a block: drawn taller
        than it is long). Outline: from the first throw for a block until it is given back; filled: the train
        is in it; dotted: the way goes on in a block with its row elsewhere. A start is dragged by its badge,
        or by the arrow keys on it (Shift: ten seconds; up and down: the other starts).
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
