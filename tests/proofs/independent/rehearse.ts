/** A whole script, line by line, retracts included; and the answer of `rehearse` in its JSON. */

import type { Entry } from './answer.ts';
import { judge } from './judge.ts';
import { requestMove } from './moves.ts';
import { beginning, type Line, placed, type State, type World } from './state.ts';
import { sure } from './sure.ts';
import { locksOn, viewOf } from './views.ts';
import { mayBeNow, OBSERVATIONS } from './when.ts';

export interface Evening {
  state: State;
  lines: Line[];
  entries: Entry[];
  /** Numbers of lines that were retracted. */
  retracted: number[];
}

const RETRACTABLE = 'place-train turn-selector throw-turnout set-toggle declare tag untag settle'.split(' ');

export const newEvening = (world: World): Evening => ({
  state: beginning(world),
  lines: [],
  entries: [],
  retracted: [],
});

const sameVerdict = (one: Entry, other: Entry): boolean =>
  one.outcome === other.outcome &&
  JSON.stringify(one.reasons.map(({ code, about }) => [code, about])) ===
    JSON.stringify(other.reasons.map(({ code, about }) => [code, about]));

function refused(evening: Evening, line: Line, ...about: string[]): Evening {
  const entry: Entry = {
    at: line.at,
    do: line.do,
    outcome: 'refused',
    reasons: [{ code: 'not-now', about }],
  };
  return { ...evening, lines: [...evening.lines, line], entries: [...evening.entries, entry] };
}

/** Folds again without a line; a later input that comes out otherwise forbids it. */
function retract(world: World, evening: Evening, line: Line): Evening {
  if (!mayBeNow(evening.state, line)) return refused(evening, line);
  const number: number = line.entry;
  const target = evening.lines[number - 1];
  const may = target && (OBSERVATIONS.includes(target.do) || RETRACTABLE.includes(target.do));
  if (!may || evening.retracted.includes(number)) return refused(evening, line, String(number));
  let state = beginning(world);
  for (const [index, other] of evening.lines.entries()) {
    if (other.do === 'retract' || index === number - 1 || evening.retracted.includes(index + 1)) continue;
    const result = judge(world, state, other, index + 1);
    if (!sameVerdict(result.entry, sure(evening.entries[index])))
      return refused(evening, line, String(index + 1));
    state = result.state;
  }
  return {
    state,
    lines: [...evening.lines, line],
    entries: [...evening.entries, { at: line.at, do: line.do, outcome: 'done', reasons: [] }],
    retracted: [...evening.retracted, number],
  };
}

export function takeLine(world: World, evening: Evening, line: Line): Evening {
  if (line.do === 'retract') return retract(world, evening, line);
  const { state, entry } = judge(world, evening.state, line, evening.lines.length + 1);
  return { ...evening, state, lines: [...evening.lines, line], entries: [...evening.entries, entry] };
}

export interface StateAnswer {
  blocks: Record<string, { state: string; cab: string | null; train: string | null }>;
  turnouts: Record<string, { position: string; locked: boolean }>;
  selectors: Record<string, string>;
  toggles: Record<string, boolean>;
  trains: Record<string, { blocks: string[]; cab: string | null }>;
  authorities: Record<string, { train: string; state: string; blocks: string[] }>;
  alarms: { code: string; about: string[] }[];
  asks: { train: string; to: string; free: boolean }[];
}

export function answerOf(world: World, state: State): StateAnswer {
  return {
    blocks: Object.fromEntries(world.doc.blocks.map(({ id }) => [id, viewOf(world, state, id)])),
    turnouts: Object.fromEntries(
      world.track.thrown.map((id) => [
        id,
        {
          position: sure(state.turnouts[id]),
          locked: locksOn(world, state, id).some((lock) => lock.way.setting !== null),
        },
      ]),
    ),
    selectors: { ...state.selectors },
    toggles: { ...state.toggles },
    trains: Object.fromEntries(
      placed(state).map((id) => {
        const { blocks, cab } = sure(state.trains[id]);
        return [id, { blocks: blocks.map(({ block }) => block), cab }];
      }),
    ),
    authorities: Object.fromEntries(
      state.authorities.map(({ id, train, state: how, visits }) => [
        id,
        { train, state: how, blocks: visits.map(({ block }) => block) },
      ]),
    ),
    alarms: state.alarms.map(({ code, about }) => ({ code, about })),
    asks: state.asks.map(({ train, line }) => ({
      train,
      to: line.to,
      free: state.session === 'running' && requestMove(world, state, line).reasons.length === 0,
    })),
  };
}

/** The whole answer to a script. */
export function rehearse(world: World, script: readonly Line[]): { entries: Entry[] } & StateAnswer {
  const evening = script.reduce((all, line) => takeLine(world, all, line), newEvening(world));
  return { entries: evening.entries, ...answerOf(world, evening.state) };
}
