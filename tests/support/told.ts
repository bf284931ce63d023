/** A short evening on a small railroad, told line by line: what the engine answers, the second implementation agreeing with every line. */
import type { RailroadDocument } from '../../shared-model/railroad/document.ts';
import { indexRailroad } from '../../shared-model/railroad/railroad.ts';
import { newEvening, problemWith, take } from '../../shared-model/session/evening.ts';
import type { SessionEvent } from '../../shared-model/session/event.ts';
import { sessionInput } from '../../shared-model/session/input.ts';
import { withNamesOf } from '../../shared-model/session/script.ts';
import type { SessionState } from '../../shared-model/session/state.ts';
import { type StateAnswer, stateAnswer } from '../../shared-model/session/state-answer.ts';
import { difference } from '../proofs/differential.ts';
import { HAND_RAILROADS } from '../proofs/hand-railroads.ts';

export type Said = { readonly do: string } & Readonly<Record<string, unknown>>;

/** A small railroad by its name. */
export function handRailroad(name: string): RailroadDocument {
  const found = HAND_RAILROADS.find((document) => document.name === name);
  if (found === undefined) throw new Error(`no railroad "${name}"`);
  return found;
}

export interface Told {
  /** [outcome, code and about of each reason] of each line. */
  readonly lines: readonly (readonly [string, ...(readonly string[])[]])[];
  readonly last: SessionEvent;
  readonly answer: StateAnswer;
  readonly state: SessionState;
}

/** Takes the lines, a second apart, and throws where the two implementations differ. */
export function told(document: RailroadDocument, script: readonly Said[]): Told {
  const differs = difference(
    document,
    script.map((said, at) => ({ at, ...said })),
  );
  if (differs !== null) throw new Error(`the two implementations differ: ${JSON.stringify(differs)}`);
  const railroad = indexRailroad(document);
  let evening = newEvening(railroad);
  for (const [at, said] of script.entries()) {
    const input = sessionInput.parse(said);
    const problem = problemWith(railroad, withNamesOf(evening.state, input), input);
    if (problem !== null) throw new Error(`line ${at + 1}: ${problem}`);
    evening = take(evening, { at, input }).evening;
  }
  const last = evening.events.at(-1);
  if (last === undefined) throw new Error('nothing was said');
  return {
    lines: evening.events.map(({ outcome, reasons }) => [
      outcome,
      ...reasons.map(({ code, about }) => [code, ...about]),
    ]),
    last,
    answer: stateAnswer(railroad, evening.state),
    state: evening.state,
  };
}

/** A session that runs, with these cabs taken. */
export const running = (...cabs: readonly string[]): readonly Said[] => [
  { do: 'open-session' },
  ...cabs.map((cab) => ({ do: 'assign-cab', cab, person: `Person ${cab}` })),
  { do: 'start' },
];

export const placed = (train: string, at: string, cab?: string): Said => {
  const [edge, toward] = at.split(':');
  return { do: 'place-train', train, edge, toward, ...(cab === undefined ? {} : { cab }) };
};
export const at = (train: string, place: string): Said => {
  const [edge, toward] = place.split(':');
  return { do: 'train-at', train, edge, toward };
};
export const turned = (selector: string, position: string): Said => ({
  do: 'turn-selector',
  selector,
  position,
});
export const stands = (selector: string, position: string): Said => ({
  do: 'selector-stands-at',
  selector,
  position,
});
export const toggled = (toggle: string, on: boolean): Said => ({ do: 'set-toggle', toggle, on });
export const moved = (train: string, to: string, more: object = {}): Said => ({
  do: 'request-move',
  train,
  to,
  ...more,
});
export const limits = (train: string, ...blocks: readonly string[]): Said => ({
  do: 'grant-limits',
  train,
  blocks,
});
export const readBack = (authority: string): Said => ({ do: 'acknowledge', authority });
export const entered = (train: string, block: string): Said => ({ do: 'train-entered', train, block });
export const cleared = (train: string, block: string): Said => ({ do: 'train-cleared', train, block });
export const phased = (a: string, b: string): Said => ({
  do: 'phase-measured',
  a,
  b,
  voltsA: 18,
  voltsB: 18,
  voltsAcross: 0.3,
});
