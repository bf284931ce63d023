/** The times of a plan: on a meet worked out by hand, and on random plans the same that the checker reads from the moves. */
import { describe, expect, it } from 'vitest';
import { drawsFrom } from '../../shared-model/chance.ts';
import { courseOf } from '../../shared-model/planning/checker/course.ts';
import { type PlanOptions, USUAL_OPTIONS } from '../../shared-model/planning/plan/options.ts';
import { plan } from '../../shared-model/planning/plan.ts';
import { parseSituation } from '../../shared-model/planning/situation.ts';
import { planTiming } from '../../shared-model/planning/timing.ts';
import { indexRailroad } from '../../shared-model/railroad/railroad.ts';
import { chanceOf } from '../support/chance.ts';
import { passingSidingExample } from '../support/example.ts';
import { randomRailroad } from '../support/random-railroad.ts';
import { randomSituation } from '../support/random-situation.ts';

interface Stay {
  readonly what: string;
  readonly from: number;
}
const byTime = (one: Stay, other: Stay): number =>
  one.from === other.from ? one.what.localeCompare(other.what) : one.from - other.from;
const effort = (seed: number) => ({ draw: drawsFrom(seed), shouldStop: () => false, patience: 30 });

describe('one train through the passing main into the siding, worked out by hand', () => {
  // 30 scale mph on 1:48 is 279.4 mm/s; 550 mm of B2 lie before the siding. K2, T1 and K3 are thrown from 0 to 9; the head is in B3
  // 550 mm after the start, which with the margin binds to 9.03 s; talk and start bind to 10 s.
  const railroad = indexRailroad(passingSidingExample);
  const parsed = parseSituation(railroad, {
    trains: [{ train: 't7', edge: 'e1', toward: 'g1', cab: '1', to: 'B3' }],
  });
  if (!parsed.ok) throw new Error(parsed.malformed.says);
  const options: PlanOptions = { ...USUAL_OPTIONS, talkSeconds: 6, startSeconds: 4 };
  const answer = plan(railroad, parsed.value, options, effort(1));
  const timing = planTiming(railroad, parsed.value, answer, options);
  const at = (mm: number): number => 10 + mm / 279.4;

  it('queues the hands, says the words meanwhile, and loses four seconds at the start', () => {
    expect(timing.hands.map(({ at, till }) => [at, till])).toEqual([
      [0, 3],
      [3, 6],
      [6, 9],
    ]);
    expect(timing.handsPeak).toBe(3);
    expect(timing.voice).toEqual([{ at: 0, till: 6, of: 0 }]);
    expect(timing.lost).toEqual([{ train: 't7', move: 0, at: 6, seconds: 4 }]);
  });
  it('has each block from its first throw until the margin behind its tail', () => {
    const [behind, through, last] = timing.blocks;
    expect(behind).toMatchObject({ block: 'B1', headIn: null, from: null, throws: [] });
    expect(behind?.tailOut).toBeCloseTo(at(1400), 3);
    expect(through).toMatchObject({ block: 'B2', from: 0 });
    expect(through?.throws).toHaveLength(2);
    expect(through?.headIn).toBeCloseTo(at(0), 3);
    expect(through?.tailOut).toBeCloseTo(at(550 + 1400), 3);
    expect(through?.till).toBeCloseTo(at(550 + 1400) + 2, 3);
    expect(last).toMatchObject({ block: 'B3', from: 6, throws: [2], tailOut: null, till: null });
    expect(last?.headIn).toBeCloseTo(at(550), 3);
    expect(timing.lines[0]?.points.at(-1)?.at).toBeCloseTo(at(2550), 3);
  });
  it('keeps the order of the trains in each block', () => {
    expect(timing.order).toEqual(['B1', 'B2', 'B3'].map((block) => ({ block, trains: ['t7'] })));
  });
});

it('gives every stay of every train the times that the checker reads from the same moves', () => {
  let stays = 0;
  for (let seed = 1; seed <= 150; seed += 1) {
    const railroad = indexRailroad(randomRailroad(seed, 4 + (seed % 10)));
    const made = randomSituation(railroad, chanceOf(seed), { trains: 2 + (seed % 2), reachable: true });
    if (made === null) continue;
    const options = seed % 3 === 0 ? { ...USUAL_OPTIONS, talkSeconds: 6, startSeconds: 4 } : USUAL_OPTIONS;
    const answer = plan(railroad, made.situation, options, effort(seed));
    if (answer.verdict !== 'planned') continue;
    const { blocks, order } = planTiming(railroad, made.situation, answer, options);
    for (const train of made.situation.trains) {
      const { held } = courseOf(
        railroad,
        train,
        answer.moves.filter((move) => move.train === train.id),
        options,
      );
      const theirs = held
        .filter(({ what }) => railroad.blocks.has(what as never))
        .map(({ what, from, till }) => ({ what, from, till }))
        .sort(byTime);
      const ours = blocks
        .filter((stay) => stay.train === train.id)
        .map(({ block, headIn, tailOut }) => ({
          what: block,
          from: headIn ?? Number.NEGATIVE_INFINITY,
          till: tailOut ?? Number.POSITIVE_INFINITY,
        }))
        .sort(byTime);
      expect(
        ours.map(({ what }) => what),
        `${seed}`,
      ).toEqual(theirs.map(({ what }) => what));
      ours.forEach((stay, index) => {
        stays += 1;
        const other = theirs[index];
        expect(Math.abs(stay.from - (other?.from ?? 0)) < 0.002 || stay.from === other?.from).toBe(true);
        expect(Math.abs(stay.till - (other?.till ?? 0)) < 0.002 || stay.till === other?.till).toBe(true);
      });
    }
    for (const { block, trains } of order)
      expect(trains.length).toBe(blocks.filter((stay) => stay.block === block).length);
  }
  expect(stays).toBeGreaterThan(60);
});
