/**
 * A club night of 178 lines on a railroad of its own, through both implementations: limits with thirty reversals, a set-out and a
 * pick-up, a late guest's engine, a throttle that fails, a relief, tags, a breaker, a derailment, a break. What was not simply done is
 * pinned; each was worked out by hand from the design.
 */
import { readFileSync } from 'node:fs';
import { describe, expect, test } from 'vitest';
import { lookAhead } from '../../shared-model/planning/look-ahead.ts';
import { indexRailroad } from '../../shared-model/railroad/railroad.ts';
import { type Evening, newEvening, take } from '../../shared-model/session/evening.ts';
import { parseScript } from '../../shared-model/session/script.ts';
import { stateAnswer } from '../../shared-model/session/state-answer.ts';
import { MILL_BRANCH } from '../support/mill-branch.ts';
import { difference } from './differential.ts';

const text = readFileSync('tests/support/club-night.script.jsonl', 'utf8');
const railroad = indexRailroad(MILL_BRANCH);

function held(): Evening {
  const script = parseScript(railroad, text);
  if (!script.ok) throw new Error(`line ${script.line}: ${script.says}`);
  return script.inputs.reduce(
    (evening, input) => take(evening, input).evening,
    newEvening(railroad, {}, lookAhead),
  );
}
const evening = held();

const PINNED: readonly string[] = [
  '7 refused: cab-not-wired B10 3',
  '22 refused: train-too-long t2 B5',
  '24 refused: block-owned B5 t2 2: block-occupied B6 t2: hand-off-needed B6 2: turnout-locked T2',
  '34 refused: hand-off-needed B6 2',
  '37 refused: second-train-live K4 t2',
  '100 refused: not-now a4',
  '101 refused: not-now a4',
  '102 refused: not-now a4',
  '103 refused: not-now t4',
  '118 refused: out-of-service 4',
  '122 refused: second-train-live K7 t1',
  '124 refused: not-now 1',
  '132 refused: no-route t3 B10',
  '134 refused: not-now K10',
  '136 alarm: wrong-throttle B3 2',
  '140 alarm: breaker south',
  '142 refused: not-now',
  '143 refused: not-now',
  '148 alarm: off-the-rails t2',
  '149 refused: not-now t2',
  '154 refused: second-train-live K7 t1: second-train-live K3 guest',
  '155 alarm: entered-unauthorised t2 B2: bridging g3',
  '157 refused: not-now t2',
  '158 alarm: entered-unauthorised t2 B3: bridging g2',
  '161 alarm: wrong-throttle B1 4',
  '164 alarm: wrong-throttle B2 1',
  '166 refused: hand-off-needed B8 3: second-train-live K3 guest',
  '169 refused: phase-unknown g9 north south',
  '170 refused: phase-unknown g9 north south: second-train-live K3 guest: second-train-live H2 t3',
  '172 refused: second-train-live K3 guest: second-train-live H2 t3',
  '173 refused: second-train-live K3 guest: second-train-live H2 t3',
  '174 refused: not-now t2',
];

describe('a club night on the mill branch', () => {
  test('is answered line by line as the second implementation answers it', () => {
    const lines = text.split('\n').filter((line) => line.startsWith('{'));
    expect(lines).toHaveLength(178);
    expect(
      difference(
        MILL_BRANCH,
        lines.map((line) => JSON.parse(line)),
      ),
    ).toBeNull();
  });

  test('refuses and warns where it has to', () => {
    const notable = evening.events
      .filter(({ outcome }) => outcome !== 'done')
      .map(({ entry, outcome, reasons }) =>
        [`${entry} ${outcome}`, ...reasons.map(({ code, about }) => [code, ...about].join(' '))].join(': '),
      );
    expect(notable).toEqual(PINNED);
  });

  test('names its authorities in order of granting, and hands out the throws that are still needed', () => {
    const granted = evening.events.flatMap(({ entry, authority, throws }) =>
      authority === undefined
        ? []
        : [[entry, authority, ...(throws ?? []).map(({ id, to }) => `${id} ${String(to)}`)].join(' ')],
    );
    expect(granted).toEqual([
      '14 a1 K2 1 K3 1',
      '23 a2 K5 2 T2 reverse K4 2',
      '39 a3 K5 1 T2 normal K7 1',
      '52 a4 K9 3 H1 true H2 true',
      '107 a5 K2 4',
      '108 a5 K2 4 K3 4',
      '133 a6 K5 3 T3 reverse',
      '153 a7 K2 2 T1 reverse',
    ]);
    const states = Object.values(stateAnswer(railroad, evening.state).authorities).map(({ state }) => state);
    expect(states).toEqual([
      'fulfilled',
      'fulfilled',
      'fulfilled',
      'fulfilled',
      'fulfilled',
      'acknowledged',
      'fulfilled',
    ]);
  });

  test('gives the failed throttle of the guest up with its dial off first', () => {
    const changed = evening.events.find(({ input }) => input.do === 'change-cab');
    expect(changed?.throws).toEqual([
      { kind: 'selector', id: 'K3', to: 'off', block: 'B3', waitsFor: [] },
      { kind: 'selector', id: 'K3', to: '1', block: 'B3', waitsFor: ['K3'] },
    ]);
  });
});
