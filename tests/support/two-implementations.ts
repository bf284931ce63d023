/** One random evening through the engine and through the second implementation (tests/proofs/independent), line by line. */
import { indexRailroad } from '../../shared-model/railroad/railroad.ts';
import { stateAnswer } from '../../shared-model/session/state-answer.ts';
import { answerOf, newEvening, takeLine } from '../proofs/independent/rehearse.ts';
import { worldOf } from '../proofs/independent/state.ts';
import { randomEvening } from './random-evening.ts';
import { randomRailroad } from './random-railroad.ts';

/** JSON with the keys of records in order, so that two states can be compared as text. */
function inOrder(value: unknown): string {
  return JSON.stringify(value, (_key, part: unknown) =>
    typeof part === 'object' && part !== null && !Array.isArray(part)
      ? Object.fromEntries(Object.entries(part).sort(([a], [b]) => (a < b ? -1 : 1)))
      : part,
  );
}

/** @returns the first entry on which the two differ, and in what; null when they agree to the end */
export function agreesOn(seed: number): string | null {
  const document = randomRailroad(seed, 6 + (seed % 8));
  const railroad = indexRailroad(document);
  const world = worldOf(document);
  let second = newEvening(world);
  let differs: string | null = null;
  randomEvening(railroad, seed, 60, (_before, after) => {
    const event = after.events.at(-1);
    if (differs !== null || event === undefined) return;
    second = takeLine(world, second, { at: event.at, ...event.input });
    const entry = second.entries.at(-1);
    const verdict = (one: typeof event | typeof entry) => [
      one?.outcome,
      one?.reasons.map(({ code, about }) => [code, about]),
    ];
    if (inOrder(verdict(event)) !== inOrder(verdict(entry))) differs = `entry ${event.entry}: the verdict`;
    else if (inOrder(stateAnswer(railroad, after.state)) !== inOrder(answerOf(world, second.state)))
      differs = `entry ${event.entry}: the state`;
  });
  return differs;
}
