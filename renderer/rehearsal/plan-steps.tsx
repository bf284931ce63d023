/** The plan step by step: each step is an entry of the fork, judged by the rules, and the board shows the railroad after it. */

import { eventWords } from '../../shared-model/logbook/event-words.ts';
import { clockText } from '../../shared-model/planning/chart/chart-ticks.ts';
import type { Railroad } from '../../shared-model/railroad/railroad.ts';
import { Act } from '../parts/act.tsx';
import type { PlanSeen } from './made-plan.ts';

interface PlanStepsProps {
  readonly railroad: Railroad;
  readonly seen: PlanSeen;
  /** How many steps are done. */
  readonly step: number;
  readonly onStep: (step: number) => void;
}

export function PlanSteps({ railroad, seen, step, onStep }: PlanStepsProps) {
  const { steps, refused } = seen.played;
  const here = steps[step - 1];
  const wrong = here !== undefined && here.event.outcome !== 'done';
  return (
    <section className="rehearsal-steps" aria-label="Step by step">
      <div className="rehearsal-acts">
        <Act kind="calm" onPress={() => onStep(0)} notNow={step === 0 ? 'This is the beginning.' : undefined}>
          To the beginning
        </Act>
        <Act
          kind="calm"
          onPress={() => onStep(step - 1)}
          notNow={step === 0 ? 'This is the beginning.' : undefined}
        >
          Step back
        </Act>
        <Act
          kind="calm"
          onPress={() => onStep(step + 1)}
          notNow={step >= steps.length ? 'This is the end.' : undefined}
        >
          Step on
        </Act>
        <Act
          kind="calm"
          onPress={() => onStep(steps.length)}
          notNow={step >= steps.length ? 'This is the end.' : undefined}
        >
          To the end
        </Act>
      </div>
      <p role="status" data-wrong={wrong || undefined} className="rehearsal-step">
        {here === undefined
          ? `Step 0 of ${steps.length}: as it stands at the beginning.`
          : `Step ${step} of ${steps.length}, ${clockText(here.at)}: ${eventWords(railroad, here.state, here.event)}.`}
        {wrong
          ? ` ${here?.event.outcome === 'refused' ? 'Refused' : 'Alarm'}: ${here?.event.reasons.map(({ says }) => says).join(' ')}`
          : ''}
      </p>
      {refused.length === 0 ? (
        <p>The rules of the evening take every step of it.</p>
      ) : (
        <ul className="rehearsal-problem" aria-label="Against the rules">
          {refused.map(({ at, event, state }) => (
            <li key={event.entry}>
              {clockText(at)} {eventWords(railroad, state, event)}:{' '}
              {event.reasons.map(({ says }) => says).join(' ')}
            </li>
          ))}
        </ul>
      )}
    </section>
  );
}
