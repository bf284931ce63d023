/**
 * Reach counts: how many states show themselves differently after so many words on two tiny railroads. The numbers were worked out by
 * the second implementation (tests/proofs/independent), written from the design alone; the engine must come to the same, and with a
 * rule made wrong on purpose to others.
 */
import { describe, expect, it } from 'vitest';
import { indexRailroad } from '../../shared-model/railroad/railroad.ts';
import { type Evening, newEvening, take } from '../../shared-model/session/evening.ts';
import { sessionInput } from '../../shared-model/session/input.ts';
import { stateAnswer } from '../../shared-model/session/state-answer.ts';
import { shownState } from './in-order.ts';
import { judge } from './independent/judge.ts';
import { answerOf } from './independent/rehearse.ts';
import { beginning, type State, worldOf } from './independent/state.ts';
import { bent, FORK, LINE, type Machine, reachCounts, type Tiny, WRONG_RULES } from './reach.ts';

const PINNED = {
  line: {
    right: [1, 8, 37, 131, 381, 913, 1796],
    forgetsTail: [1, 8, 35, 116, 314, 690, 1222],
    skipsReadBack: [1, 8, 35, 111, 276, 565, 980],
  },
  fork: {
    right: [1, 9, 40, 119, 265, 464, 660],
    forgetsTail: [1, 9, 39, 111, 232, 373, 481],
    skipsReadBack: [1, 9, 38, 101, 191, 279, 338],
  },
};

type Judged = { readonly state: State; readonly granted?: string | undefined };

function bruteForce({ document }: Tiny): Machine<Judged> {
  const world = worldOf(document);
  return {
    begin: () => ({ state: beginning(world) }),
    step: ({ state }, words) => {
      const { state: after, entry } = judge(world, state, { at: 0, ...words }, 0);
      return { state: after, granted: entry.authority };
    },
    granted: ({ granted }) => granted,
    blocksOf: ({ state }, train) => (state.trains[train]?.blocks ?? []).map(({ block }) => block),
    whole: ({ state }) => JSON.stringify({ ...state, arrivals: 0 }),
    shown: ({ state }) => JSON.stringify(shownState(answerOf(world, state))),
  };
}

function engine({ document }: Tiny): Machine<Evening> {
  const railroad = indexRailroad(document);
  return {
    begin: () => newEvening(railroad),
    step: (evening, words) => take(evening, { at: 0, input: sessionInput.parse(words) }).evening,
    granted: (evening) => evening.events.at(-1)?.authority,
    blocksOf: (evening, train) => stateAnswer(railroad, evening.state).trains[train]?.blocks ?? [],
    whole: (evening) => JSON.stringify(evening.state),
    shown: (evening) => JSON.stringify(shownState({ ...stateAnswer(railroad, evening.state) })),
  };
}

const RAILROADS = [
  ['three blocks in a line', LINE, PINNED.line],
  ['two tracks into one', FORK, PINNED.fork],
] as const;

describe.each(RAILROADS)('states that can be reached on %s', (_name, tiny, pinned) => {
  const deepest = pinned.right.length - 1;

  it('are as many by brute force as when they were pinned', () => {
    expect(reachCounts(bruteForce(tiny), tiny, deepest)).toEqual(pinned.right);
  });

  it('are as many for the engine', () => {
    expect(reachCounts(engine(tiny), tiny, deepest)).toEqual(pinned.right);
  });

  it.each(WRONG_RULES)('are others with the wrong rule %s', (rule) => {
    expect(pinned[rule]).not.toEqual(pinned.right);
    expect(reachCounts(bent(bruteForce(tiny), rule), tiny, deepest)).toEqual(pinned[rule]);
    expect(reachCounts(bent(engine(tiny), rule), tiny, deepest)).toEqual(pinned[rule]);
  });
});
