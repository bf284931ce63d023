/** Checks a plan against its situation, rule by rule, without a look at how it was made. */
import type { Railroad } from '../../railroad/railroad.ts';
import type { PlanOptions } from '../plan/options.ts';
import type { PlanAnswer, PlanMove } from '../plan-answer.ts';
import type { Situation } from '../situation.ts';
import { throwFaults } from './check-throws.ts';
import { type Course, courseOf, type Held, type PlanFault, TOLERANCE } from './course.ts';

export type { PlanFault } from './course.ts';

/** Two trains in one block, or on one diamond, or the next too soon after a tail. */
function apartFaults(courses: readonly Course[], options: PlanOptions): PlanFault[] {
  const byThing = new Map<string, Held[]>();
  for (const held of courses.flatMap((course) => course.held))
    byThing.set(held.what, [...(byThing.get(held.what) ?? []), held]);
  return [...byThing].flatMap(([what, list]) => {
    const sorted = [...list].sort((one, other) => one.from - other.from);
    return sorted.slice(1).flatMap((held, index) => {
      const before = sorted[index];
      // Where both lie at first (over one diamond) is no doing of the plan.
      if (before === undefined || held.from === Number.NEGATIVE_INFINITY) return [];
      if (held.from >= before.till + options.marginSeconds - TOLERANCE) return [];
      const kept = held.from < before.till ? '' : `, and ${options.marginSeconds} s are to be kept`;
      const says = `${held.train.id} into ${what} at ${held.from.toFixed(3)}: ${before.train.id} is clear of it at ${before.till.toFixed(3)}${kept}`;
      return [{ says, about: [held.train.id, before.train.id, what], at: held.from }];
    });
  });
}

function voiceFaults(moves: readonly PlanMove[], { talkSeconds }: PlanOptions): PlanFault[] {
  if (talkSeconds === 0) return [];
  const sorted = [...moves].sort((one, other) => one.start - other.start);
  return sorted.flatMap((move, index) => {
    const before = sorted[index - 1]?.start ?? 0;
    return move.start - talkSeconds >= before - TOLERANCE
      ? []
      : [
          {
            says: `${move.train} at ${move.start.toFixed(3)}: the voice is not free for ${talkSeconds} s before it`,
            about: [move.train],
            at: move.start,
          },
        ];
  });
}

/**
 * Checks a plan.
 *
 * @returns what is wrong, in words and with what it is about; nothing when it is good
 */
export function planFaults(
  railroad: Railroad,
  situation: Situation,
  plan: Pick<PlanAnswer, 'moves' | 'throws' | 'total'>,
  options: PlanOptions,
): readonly PlanFault[] {
  const known = new Set<string>(situation.trains.map(({ id }) => id));
  const strangers = plan.moves
    .filter(({ train }) => !known.has(train))
    .map(({ train }): PlanFault => ({ says: `there is no train ${train}`, about: [train], at: null }));
  const moves = [...plan.moves].sort((one, other) => one.start - other.start);
  const courses = situation.trains.map((train) =>
    courseOf(
      railroad,
      train,
      moves.filter((move) => move.train === train.id),
      options,
    ),
  );
  const notThere = situation.trains.flatMap((train, index): PlanFault[] => {
    const head = courses[index]?.last.trail[0];
    const block = head === undefined ? undefined : railroad.blockOfEdge.get(head.edge);
    return train.to === null || train.to === block
      ? []
      : [{ says: `${train.id} ends in ${block}, not in ${train.to}`, about: [train.id, train.to], at: null }];
  });
  const ends = situation.trains.map(({ id }) => moves.findLast((move) => move.train === id)?.end ?? 0);
  const total = ends.reduce((sum, end) => sum + end, 0);
  const wrongTotal: PlanFault[] =
    plan.total !== null && Math.abs(total - plan.total) <= TOLERANCE * Math.max(1, ends.length)
      ? []
      : [{ says: `the arrivals sum to ${total.toFixed(3)}, not to ${plan.total}`, about: [], at: null }];
  const throws = [...plan.throws].sort((one, other) => one.at - other.at);
  return [
    ...strangers,
    ...courses.flatMap((course) => course.faults),
    ...notThere,
    ...apartFaults(courses, options),
    ...throwFaults({ railroad, situation, throws, options, courses }),
    ...voiceFaults(moves, options),
    ...wrongTotal,
  ];
}
