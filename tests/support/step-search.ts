/**
 * Joint steps as the literature counts them: in every step each train stays where it is or goes on by one, all at the same time. By exhaustion.
 * Two rules: "strict", a place is entered only if it was empty at the start of the step (insulated blocks); "loose", as in the literature
 * on multi-agent path finding, it may be left in that very step, and a full ring may turn, but two may not change places.
 */
import {
  afterOneRun,
  allArrived,
  type Standings,
  standingsKey,
  startStandings,
} from '../../shared-model/planning/checker/check-witness.ts';
import { blocksUnder } from '../../shared-model/planning/checker/lying-train.ts';
import type { Situation } from '../../shared-model/planning/situation.ts';
import type { Railroad } from '../../shared-model/railroad/railroad.ts';

export type StepRule = 'strict' | 'loose';

/** Undirected joins of places, and from where to where each train goes. */
export interface StepProblem {
  readonly joins: readonly (readonly [string, string])[];
  readonly trips: readonly (readonly [from: string, to: string])[];
  /** Joins that are passed from the first to the second alone. */
  readonly oneWay?: boolean;
}

function choices<T>(lists: readonly (readonly T[])[]): readonly (readonly T[])[] {
  return lists.reduce<readonly (readonly T[])[]>(
    (some, list) => some.flatMap((chosen) => list.map((one) => [...chosen, one])),
    [[]],
  );
}

function nextStates(
  { joins, oneWay }: StepProblem,
  rule: StepRule,
  now: readonly string[],
): readonly (readonly string[])[] {
  const onFrom = (place: string): readonly string[] => [
    place,
    ...joins.flatMap(([a, b]) => (a === place ? [b] : b === place && oneWay !== true ? [a] : [])),
  ];
  return choices(now.map(onFrom)).filter((next) => {
    if (new Set(next).size < next.length) return false;
    return next.every((place, train) => {
      if (place === now[train]) return true;
      const by = now.indexOf(place);
      return by < 0 || (rule === 'loose' && next[by] !== now[train]);
    });
  });
}

/** Least number of steps until all are there, and how many joint states can be reached; null where they cannot. */
export function fewestSteps(problem: StepProblem, rule: StepRule) {
  const goal = problem.trips.map(([, to]) => to).join();
  let wave: readonly (readonly string[])[] = [problem.trips.map(([from]) => from)];
  const seen = new Set(wave.map((state) => state.join()));
  let steps: number | null = null;
  for (let step = 0; wave.length > 0; step += 1) {
    if (steps === null && wave.some((state) => state.join() === goal)) steps = step;
    wave = wave
      .flatMap((state) => nextStates(problem, rule, state))
      .filter((state) => !seen.has(state.join()) && seen.add(state.join()));
  }
  return { steps, states: seen.size };
}

/** Least sum of costs: of each train the steps until it is there for good; null where they cannot all get there. */
export function leastSumOfCosts(problem: StepProblem, rule: StepRule): number | null {
  const { trips } = problem;
  const goals = trips.map(([, to]) => to);
  interface State {
    readonly at: readonly string[];
    readonly there: readonly boolean[];
  }
  const keyOf = ({ at, there }: State): string => `${at.join()} ${there.join()}`;
  /** The same state with some of those that are there said to stay for good. */
  const settled = ({ at, there }: State): readonly State[] =>
    choices(
      at.map((place, train) => (there[train] ? [true] : place === goals[train] ? [false, true] : [false])),
    ).map((now) => ({ at, there: now }));
  const buckets: State[][] = [
    settled({ at: trips.map(([from]) => from), there: trips.map(() => false) }).slice(),
  ];
  const seen = new Set<string>();
  for (let cost = 0; cost < buckets.length; cost += 1)
    for (const state of buckets[cost] ?? []) {
      if (state.there.every(Boolean)) return cost;
      if (seen.has(keyOf(state))) continue;
      seen.add(keyOf(state));
      const later = cost + state.there.filter((done) => !done).length;
      while (buckets.length <= later) buckets.push([]);
      for (const at of nextStates(problem, rule, state.at))
        if (at.every((place, train) => !state.there[train] || place === state.at[train]))
          buckets[later]?.push(...settled({ at, there: state.there }));
    }
  return null;
}

/** The fewest steps by the strict rule on a railroad, a step being a run of one train or more; by the checker's reading. */
export function fewestStepsOnTrack(railroad: Railroad, situation: Situation): number | null {
  let wave: readonly Standings[] = [startStandings(situation)];
  const seen = new Set(wave.map(standingsKey));
  for (let step = 0; wave.length > 0; step += 1) {
    if (wave.some((standings) => allArrived(railroad, situation, standings))) return step;
    wave = wave
      .flatMap((standings) =>
        choices(
          situation.trains.map((train) => [
            ...[standings.get(train.id)].filter((here) => here !== undefined),
            ...afterOneRun(railroad, situation, standings, train),
          ]),
        ),
      )
      .filter((next) => {
        const blocks = next.flatMap((train) => [...blocksUnder(railroad, train)]);
        return new Set(blocks).size === blocks.length;
      })
      .map((next): Standings => new Map(situation.trains.map(({ id }, index) => [id, next[index] as never])))
      .filter((standings) => !seen.has(standingsKey(standings)) && seen.add(standingsKey(standings)));
  }
  return null;
}
