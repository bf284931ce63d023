/** The independent checker rejects plans that were good and have been changed, by every kind of change; and it shares no code with the planner. */
import { readdirSync, readFileSync } from 'node:fs';
import { describe, expect, it } from 'vitest';
import { root } from '../../build/fit-node.js';
import { drawsFrom } from '../../shared-model/chance.ts';
import { planFaults } from '../../shared-model/planning/checker/check-plan.ts';
import { witnessFault } from '../../shared-model/planning/checker/check-witness.ts';
import { USUAL_OPTIONS } from '../../shared-model/planning/plan/options.ts';
import { plan } from '../../shared-model/planning/plan.ts';
import type { PlanAnswer, PlanMove, PlanThrow } from '../../shared-model/planning/plan-answer.ts';
import { safe } from '../../shared-model/planning/safe.ts';
import { stationCases } from '../bench/station-cases.ts';

const OPTIONS = { ...USUAL_OPTIONS, talkSeconds: 6, startSeconds: 4 };
const CASES = stationCases(12, 3, 12).flatMap(({ railroad, situation, seed }) => {
  const answer = plan(railroad, situation, OPTIONS, {
    draw: drawsFrom(seed),
    shouldStop: () => false,
    patience: 20,
  });
  return answer.verdict === 'planned' && answer.throws.length > 2 ? [{ railroad, situation, answer }] : [];
});

const withMove = (answer: PlanAnswer, change: (move: PlanMove) => Partial<PlanMove> | null): PlanAnswer => {
  const last = answer.moves.at(-1);
  return {
    ...answer,
    moves: answer.moves.flatMap((move) => {
      const changed = move === last ? change(move) : {};
      return changed === null ? [] : [{ ...move, ...changed }];
    }),
  };
};
const withThrow = (answer: PlanAnswer, change: (one: PlanThrow) => readonly PlanThrow[]): PlanAnswer => ({
  ...answer,
  throws: answer.throws.flatMap((one, index) => (index === 1 ? change(one) : [one])),
});
const other = (one: PlanThrow): PlanThrow['to'] =>
  one.kind === 'toggle'
    ? one.to !== true
    : one.kind === 'turnout'
      ? one.to === 'normal'
        ? 'reverse'
        : 'normal'
      : 'off';

const MUTATIONS: readonly (readonly [string, (answer: PlanAnswer) => PlanAnswer])[] = [
  ['a move left out', (answer) => withMove(answer, () => null)],
  [
    'a move a second sooner',
    (answer) => withMove(answer, ({ start, end }) => ({ start: start - 1, end: end - 1 })),
  ],
  ['a move that ends too soon', (answer) => withMove(answer, ({ end }) => ({ end: end - 0.5 }))],
  [
    'a move that begins later at the same end',
    (answer) => withMove(answer, ({ start }) => ({ start: start + 0.5 })),
  ],
  ['a move by another train', (answer) => withMove(answer, () => ({ train: 'nobody' as PlanMove['train'] }))],
  ['the last edge left out', (answer) => withMove(answer, ({ edges }) => ({ edges: edges.slice(0, -1) }))],
  ['an edge twice', (answer) => withMove(answer, ({ edges }) => ({ edges: [...edges, ...edges.slice(-1)] }))],
  ['a block left out', (answer) => withMove(answer, ({ blocks }) => ({ blocks: blocks.slice(1) }))],
  [
    'a block too many',
    (answer) => withMove(answer, ({ blocks }) => ({ blocks: [...blocks, ...blocks.slice(-1)] })),
  ],
  ['a move said twice', (answer) => ({ ...answer, moves: [...answer.moves, ...answer.moves.slice(-1)] })],
  ['a throw left out', (answer) => withThrow(answer, () => [])],
  [
    'a throw to where it must not stand',
    (answer) => withThrow(answer, (one) => [{ ...one, to: other(one) }]),
  ],
  [
    'a throw of another knob',
    (answer) => withThrow(answer, (one) => [{ ...one, id: 'nothing' as PlanThrow['id'] }]),
  ],
  ['a throw at the end of all', (answer) => withThrow(answer, (one) => [{ ...one, at: 1_000_000 }])],
  ['a throw before the situation', (answer) => withThrow(answer, (one) => [{ ...one, at: -5 }])],
  [
    'two throws at once',
    (answer) => withThrow(answer, (one) => [{ ...one, at: (answer.throws[0]?.at ?? 0) + 0.5 }]),
  ],
  ['a throw done again', (answer) => withThrow(answer, (one) => [one, { ...one, at: one.at + 3 }])],
  ['another total', (answer) => ({ ...answer, total: (answer.total ?? 0) - 1 })],
];

describe('a good plan is rejected', () => {
  it('in none of the cases as it is', () => {
    expect(CASES.length).toBeGreaterThan(4);
    for (const { railroad, situation, answer } of CASES)
      expect(planFaults(railroad, situation, answer, OPTIONS)).toEqual([]);
  });
  it.each(MUTATIONS)('with %s', (_what, mutate) => {
    for (const { railroad, situation, answer } of CASES)
      expect(planFaults(railroad, situation, mutate(answer), OPTIONS)).not.toEqual([]);
  });
});

describe('a good witness is rejected', () => {
  const witnesses = CASES.map(({ railroad, situation }) => ({
    railroad,
    situation,
    witness: safe(railroad, situation).witness ?? [],
  }));
  it('with its last run left out', () => {
    for (const { railroad, situation, witness } of witnesses)
      expect(witnessFault(railroad, situation, witness.slice(0, -1))).not.toBeNull();
  });
  it('with a run to a block that is not next', () => {
    for (const { railroad, situation, witness } of witnesses) {
      const far = witness.map((step, index) =>
        index === 0 ? { ...step, to: 'nowhere' as typeof step.to } : step,
      );
      expect(witnessFault(railroad, situation, far)).not.toBeNull();
    }
  });
});

it('the checker imports nothing of the planner but types', () => {
  const folder = `${root}shared-model/planning/checker/`;
  for (const file of readdirSync(folder)) {
    const imports = readFileSync(`${folder}${file}`, 'utf8').match(/^import [^;]*;/gm) ?? [];
    const ofPlanner = imports.filter(
      (line) => /'\.\.\/[a-z]/.test(line) && !/'\.\.\/\.\.\//.test(line) && !line.startsWith('import type'),
    );
    expect(ofPlanner, file).toEqual([]);
  }
});
