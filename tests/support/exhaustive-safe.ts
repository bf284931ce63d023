/** The plainest search for a safe state: every joint standing, breadth first, by the checker's reading of the rules and no pruning at all. */

import {
  afterOneRun,
  allArrived,
  type Standings,
  standingsKey,
  startStandings,
} from '../../shared-model/planning/checker/check-witness.ts';
import type { Situation } from '../../shared-model/planning/situation.ts';
import type { Railroad } from '../../shared-model/railroad/railroad.ts';

/** @returns the verdict with the number of states seen; null where there are more than `most` */
export function exhaustiveSafe(
  railroad: Railroad,
  situation: Situation,
  most: number,
): { readonly safe: boolean; readonly states: number } | null {
  const first = startStandings(situation);
  const seen = new Set([standingsKey(first)]);
  const queue: Standings[] = [first];
  let safe = allArrived(railroad, situation, first);
  for (let next = 0; next < queue.length && !safe; next += 1) {
    const standings = queue[next];
    if (standings === undefined || seen.size > most) return null;
    for (const train of situation.trains)
      for (const after of afterOneRun(railroad, situation, standings, train)) {
        const reached: Standings = new Map([...standings, [train.id, after]]);
        const key = standingsKey(reached);
        if (seen.has(key)) continue;
        seen.add(key);
        queue.push(reached);
        if (allArrived(railroad, situation, reached)) safe = true;
      }
  }
  return { safe, states: seen.size };
}
