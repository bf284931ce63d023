/** The trains that are behind a plan that is carried out, and who waits for them: what there is to know before another plan is made. */
import type { HowFar } from '../../shared-model/planning/carry-out/how-far.ts';
import { lateTrains } from '../../shared-model/planning/carry-out/late-trains.ts';
import type { Turn } from '../../shared-model/planning/carry-out/whose-turn.ts';
import { clockText } from '../../shared-model/planning/chart/chart-ticks.ts';
import type { Railroad } from '../../shared-model/railroad/railroad.ts';
import type { PlanSeen } from './made-plan.ts';
import { trainWords } from './words.ts';

/** Behind the plan by so much a train is told as late: a little late is every start. Common practice, no source. */
const LATE_SECONDS = 15;

interface LateTrainsProps {
  readonly railroad: Railroad;
  readonly seen: PlanSeen;
  readonly far: HowFar;
  readonly turns: readonly Turn[];
  /** Seconds since the plan's beginning. */
  readonly since: number;
}

export function LateTrains({ railroad, seen, far, turns, since }: LateTrainsProps) {
  const late = lateTrains(seen.kept, far, turns, since, LATE_SECONDS);
  if (late.length === 0) return null;
  const isWaitedFor = late.some(({ keepsWaiting }) => keepsWaiting.length > 0);
  return (
    <div className="rehearsal-late">
      <ul aria-label="Behind the plan">
        {late.map(({ train, by, keepsWaiting }) => {
          const waiting = keepsWaiting.map((other) => trainWords(railroad, other)).join(' and ');
          const waits =
            waiting === '' ? '' : `; ${waiting} ${keepsWaiting.length === 1 ? 'waits' : 'wait'} for it`;
          return (
            <li key={train}>
              {trainWords(railroad, train)} is {clockText(by)} behind the plan{waits}.
            </li>
          );
        })}
      </ul>
      <p className="quiet">
        The order of the trains holds all the same, and nothing locks.
        {isWaitedFor
          ? ' Where it lasts: annul on the Desk what has not set out, then “Plan again from here”.'
          : ''}
      </p>
    </div>
  );
}
