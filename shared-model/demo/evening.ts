/** The demo evening: what was said and done on the demo railroad in about an hour, an input at a time, as the rules took it. */
import { indexRailroad } from '../railroad/railroad.ts';
import { newEvening } from '../session/evening.ts';
import type { TimedInput } from '../session/input.ts';
import { breakAndRollCall } from './evening/break.ts';
import { closing, lastRounds, meetAtTheDepot } from './evening/closing.ts';
import { firstMoves, makeUp, type People } from './evening/opening.ts';
import { roundsBeside, threeTrains } from './evening/rounds.ts';
import { emptyStage, play } from './evening/stage.ts';
import { derailment, troubleInTheNorth } from './evening/trouble.ts';
import { yardWork } from './evening/yard-work.ts';
import { demoRailroad } from './railroad.ts';

/** Who comes; invented, first names alone. */
const NAMES = ['Kim', 'Bo', 'Ada', 'Lou', 'Noor'] as const;

/** The second at which the trains that go round look for a place to stop: the break follows. */
const BREAK_AT = 1890;
/** The second from which no train asks for a further block. */
const LAST_ROUNDS_END = 3780;

function peopleOf(seed: number): People {
  const name = (place: number): string => NAMES[(seed + place) % NAMES.length] ?? NAMES[0];
  return { dispatcher: name(0), first: name(1), second: name(2), third: name(3), guest: name(4) };
}

/**
 * Inputs with their seconds, as they go through the rules: three trains go round for twenty minutes while the yard works, then a
 * break with a roll call, trouble, and the way home.
 *
 * @param seed which evening: who comes and how fast they drive; the same seed always gives the same one
 */
export function demoEvening(seed = 0): readonly TimedInput[] {
  const people = peopleOf(seed);
  const stage = emptyStage(newEvening(indexRailroad(demoRailroad)));
  const pace = seed % 4;
  play(stage, [makeUp(stage, people)]);
  play(stage, roundsBeside(stage, firstMoves(stage), { train: 't12', pace, last: 'B9' }));
  play(stage, [...threeTrains(stage, pace, BREAK_AT), yardWork(stage, people)]);
  play(stage, [breakAndRollCall(stage, people)]);
  play(stage, roundsBeside(stage, troubleInTheNorth(stage), { train: 't12', pace, last: 'B9' }));
  play(stage, roundsBeside(stage, derailment(stage), { train: 't18', pace, last: 'B1' }));
  play(stage, roundsBeside(stage, meetAtTheDepot(stage), { train: 't12', pace, last: 'B9' }));
  play(stage, lastRounds(stage, pace, LAST_ROUNDS_END));
  play(stage, [closing(stage)]);
  return stage.inputs;
}
