/** What bounds the effort and the memory of the searches: they count what they look at and what they keep, and stop. */
import fc from 'fast-check';
import { describe, expect, it } from 'vitest';
import { drawsFrom } from '../../shared-model/chance.ts';
import { planFaults } from '../../shared-model/planning/checker/check-plan.ts';
import { countedAhead, type Memory, memoryOf, partOf } from '../../shared-model/planning/memory.ts';
import { USUAL_OPTIONS } from '../../shared-model/planning/plan/options.ts';
import { plan } from '../../shared-model/planning/plan.ts';
import { moverOf, safe } from '../../shared-model/planning/safe.ts';
import { decideSafe } from '../../shared-model/planning/safe-state/decide.ts';
import type { Situation } from '../../shared-model/planning/situation.ts';
import { trackTable } from '../../shared-model/planning/track-table.ts';
import { indexRailroad, type Railroad } from '../../shared-model/railroad/railroad.ts';
import { stationCases } from '../bench/station-cases.ts';
import { chanceOf } from '../support/chance.ts';
import { randomRailroad } from '../support/random-railroad.ts';
import { randomSituation } from '../support/random-situation.ts';

/** Beyond its budget a search finishes what it has begun: the standings of every train, one order of priority. */
const BEGUN = 3000;
const MEGABYTE = 1024 * 1024;

interface Case {
  readonly railroad: Railroad;
  readonly situation: Situation;
}

function crowded(seed: number): readonly Case[] {
  const railroad = indexRailroad(randomRailroad(seed, 14));
  const made = randomSituation(railroad, chanceOf(seed), { trains: 5, reachable: true });
  return made === null ? [] : [{ railroad, situation: made.situation }];
}
const cases = Array.from({ length: 80 }, (_, index) => crowded(index + 1)).flat();
/** Twelve trains on sixty blocks: more joint standings than anything can keep. */
const [endless] = stationCases(60, 12, 1);
if (endless === undefined) throw new Error('expected a case');

/** Decides with a memory that can be looked into; all trains of the cases move. */
function decidedWith(memory: Memory, { railroad, situation }: Case, states: number) {
  const table = trackTable(railroad);
  const movers = situation.trains.flatMap((train) =>
    train.to === null ? [] : [moverOf(table, train, train.to, situation.reversals, memory)],
  );
  const decide = () => decideSafe({ table, movers, obstacles: [], memory }, { states });
  return { answer: decide(), decide };
}

describe('the search for a safe state', () => {
  it.each([0, 300, 3000])('with %i states to look at stops near them, and then has not decided', (states) => {
    for (const { railroad, situation } of cases) {
      const answer = safe(railroad, situation, { states });
      expect(answer.states).toBeLessThanOrEqual(states + BEGUN);
      const whole = safe(railroad, situation).verdict;
      if (answer.verdict !== 'undecided') expect(answer.verdict).toBe(whole);
    }
  });

  it('with nothing to look at leaves open what it could decide', () => {
    const open = cases.filter(
      ({ railroad, situation }) => safe(railroad, situation, { states: 0 }).verdict === 'undecided',
    );
    expect(open.length).toBeGreaterThan(0);
  });

  it.each([0, 0.1, 0.5, 1, 2, 4])('within %f MB never has more, and says nothing false', (megabytes) => {
    let full = 0;
    for (const one of cases) {
      const memory = memoryOf(megabytes * MEGABYTE);
      const { answer } = decidedWith(memory, one, 30_000);
      expect(memory.peak()).toBeLessThanOrEqual(megabytes * MEGABYTE);
      if (answer.verdict !== 'undecided')
        expect(answer.verdict).toBe(safe(one.railroad, one.situation).verdict);
      else if (answer.isFull) full += 1;
    }
    if (megabytes === 0) expect(full).toBe(cases.length);
    if (megabytes === 0.1) expect(full).toBeGreaterThan(0);
    if (megabytes === 4) expect(full).toBe(0);
  });

  it('gives back at its end all but the runs of the trains', () => {
    for (const one of cases) {
      const memory = memoryOf();
      const { decide } = decidedWith(memory, one, 30_000);
      const taken = memory.taken();
      decide();
      expect(memory.taken()).toBe(taken);
    }
  });

  it('that would need more than it may keep ends undecided, with the effort, and says that more states would not help', () => {
    const memory = memoryOf(6 * MEGABYTE);
    const { answer } = decidedWith(memory, endless, 1e9);
    expect(answer).toMatchObject({ verdict: 'undecided', isFull: true });
    expect(answer.states).toBeGreaterThan(10_000);
    expect(memory.peak()).toBeLessThanOrEqual(6 * MEGABYTE);
    // It used what there was: the next thing to grow is a page or the hashes.
    expect(memory.peak()).toBeGreaterThan(4 * MEGABYTE);
  });
});

describe('a plan', () => {
  const planned = ({ railroad, situation }: Case, bytes?: number) =>
    plan(railroad, situation, USUAL_OPTIONS, {
      draw: drawsFrom(1),
      shouldStop: () => false,
      patience: 30,
      ...(bytes === undefined ? {} : { bytes }),
    });

  it.each([0.05, 0.5, 1, 3])(
    'within %f MB has no fault, and is impossible or proven only if it is',
    (megabytes) => {
      let less = 0;
      for (const one of cases.slice(0, 40)) {
        const whole = planned(one);
        const answer = planned(one, megabytes * MEGABYTE);
        if (answer.verdict === 'planned')
          expect(planFaults(one.railroad, one.situation, answer, USUAL_OPTIONS)).toEqual([]);
        if (answer.verdict === 'impossible') expect(whole.verdict).toBe('impossible');
        if (answer.proven && whole.total !== null) expect(answer.total).toBeLessThanOrEqual(whole.total);
        if (answer.verdict !== whole.verdict) less += 1;
      }
      if (megabytes < 0.1) expect(less).toBeGreaterThan(0);
    },
  );
});

describe('a memory', () => {
  const MANY = { seed: 1, numRuns: 300 } as const;
  const steps = fc.array(fc.record({ bytes: fc.integer({ min: 1, max: 400 }), back: fc.boolean() }));

  it('never has more than its limit, and a part of it is given back as a whole', () => {
    fc.assert(
      fc.property(steps, fc.integer({ min: 0, max: 2000 }), (all, limit) => {
        const whole = memoryOf(limit);
        whole.take(100);
        const before = whole.taken();
        const part = partOf(whole);
        for (const { bytes, back } of all) {
          const isRoom = whole.taken() + bytes <= limit;
          if (back) part.giveBack(Math.min(bytes, part.taken()));
          else expect(part.take(bytes)).toBe(isRoom);
          expect(whole.taken()).toBe(before + part.taken());
          expect(whole.peak()).toBeLessThanOrEqual(limit);
        }
        part.giveAllBack();
        expect(whole.taken()).toBe(before);
      }),
      MANY,
    );
  });

  it('is counted ahead of many small things', () => {
    fc.assert(
      fc.property(
        fc.array(fc.integer({ min: 1, max: 16_000 })),
        fc.integer({ min: 0, max: 500_000 }),
        (all, limit) => {
          const memory = memoryOf(limit);
          const spend = countedAhead(memory);
          let made = 0;
          for (const bytes of all) {
            if (!spend(bytes)) break;
            made += bytes;
            expect(memory.taken()).toBeGreaterThan(made);
          }
          expect(memory.peak()).toBeLessThanOrEqual(limit);
        },
      ),
      MANY,
    );
  });
});
