/**
 * W2 and W4 of the worked examples: the banker's example, and the census of safe and unsafe states on a line. Each with its source, turned
 * into railroads; every witness goes through the independent checker.
 */
import { describe, expect, it } from 'vitest';
import { witnessFault } from '../../shared-model/planning/checker/check-witness.ts';
import { safe } from '../../shared-model/planning/safe.ts';
import { parseSituation, type Situation, type SituationJson } from '../../shared-model/planning/situation.ts';
import { indexRailroad, type Railroad } from '../../shared-model/railroad/railroad.ts';
import { routesToBlock } from '../../shared-model/railroad/routes.ts';
import { bankersOrder, type Claim, requested } from '../support/banker.ts';
import { chanceOf } from '../support/chance.ts';
import { exhaustiveSafe } from '../support/exhaustive-safe.ts';
import { stoppingSpots } from '../support/random-railroad.ts';
import { randomSituation } from '../support/random-situation.ts';
import { lineTrack, stationsTrack, stepRailroad, trainsAt, withCrews } from '../support/step-track.ts';

function situationOf(railroad: Railroad, json: SituationJson): Situation | null {
  const parsed = parseSituation(railroad, json);
  return parsed.ok ? parsed.value : null;
}

/** The verdict, its witness checked. */
function judged(railroad: Railroad, situation: Situation): string {
  const { verdict, witness } = safe(railroad, situation);
  if (verdict === 'safe') expect(witnessFault(railroad, situation, witness ?? [])).toBeNull();
  return verdict;
}

describe('W2: the banker’s example (Silberschatz, Galvin, Gagne, Operating System Concepts, ch. on deadlocks; read at cs.csustan.edu/~john, bankersAlgEg)', () => {
  const claims: readonly Claim[] = [
    { id: 'P0', holds: [0, 1, 0], most: [7, 5, 3] },
    { id: 'P1', holds: [2, 0, 0], most: [3, 2, 2] },
    { id: 'P2', holds: [3, 0, 2], most: [9, 0, 2] },
    { id: 'P3', holds: [2, 1, 1], most: [2, 2, 2] },
    { id: 'P4', holds: [0, 0, 2], most: [4, 3, 3] },
  ];
  const free = [3, 3, 2];
  it('has the needs 743 122 600 011 431', () => {
    const needs = claims.map(({ holds, most }) =>
      most.map((want, kind) => want - (holds[kind] ?? 0)).join(''),
    );
    expect(needs).toEqual(['743', '122', '600', '011', '431']);
  });
  it.each([[['P1', 'P3', 'P4', 'P0', 'P2']], [['P1', 'P3', 'P4', 'P2', 'P0']]])(
    'is safe, and %j is an order that the books give',
    (published) => {
      const listed = published.map((id) => claims.find((claim) => claim.id === id) as Claim);
      expect(bankersOrder(listed, free)).toEqual(published);
      expect(bankersOrder(claims, free)?.slice(0, 2)).toEqual(['P1', 'P3']);
    },
  );
  it('is safe in exactly 16 of the 120 orders (computed)', () => {
    const orders = (left: readonly Claim[]): readonly (readonly Claim[])[] =>
      left.length === 0
        ? [[]]
        : left.flatMap((first) =>
            orders(left.filter((other) => other !== first)).map((rest) => [first, ...rest]),
          );
    // In a given order each must be able to finish with what is free and what those before it gave back.
    const goes = (order: readonly Claim[]): boolean => {
      let now = [...free];
      return order.every(({ holds, most }) => {
        const can = most.every((want, kind) => want - (holds[kind] ?? 0) <= (now[kind] ?? 0));
        now = now.map((have, kind) => have + (holds[kind] ?? 0));
        return can;
      });
    };
    const all = orders(claims);
    expect(all).toHaveLength(120);
    expect(all.filter(goes)).toHaveLength(16);
    // The first order that the banker finds is one of them.
    const found = bankersOrder(claims, free)?.map((id) => claims.find((claim) => claim.id === id) as Claim);
    expect(goes(found ?? [])).toBe(true);
  });
  it('of one kind of ten units: two free is safe, C first; one more for B and it is not (Tanenbaum, Modern Operating Systems, from memory)', () => {
    const one: readonly Claim[] = [
      { id: 'A', holds: [1], most: [6] },
      { id: 'B', holds: [1], most: [5] },
      { id: 'C', holds: [2], most: [4] },
      { id: 'D', holds: [4], most: [7] },
    ];
    expect(bankersOrder(one, [2])?.[0]).toBe('C');
    const more = requested(one, [2], 'B', [1]);
    expect(more === null ? null : bankersOrder(more.claims, more.free)).toBeNull();
    expect(more).not.toBeNull();
  });
  it('stays so when P1 gets 1 0 2, which leaves 2 3 0; then 3 3 0 is not there for P4, and 0 2 0 for P0 is there but would not be safe', () => {
    const after = requested(claims, free, 'P1', [1, 0, 2]);
    if (after === null) throw new Error('P1 may have 1 0 2');
    expect(after.free).toEqual([2, 3, 0]);
    expect(bankersOrder(after.claims, after.free)).not.toBeNull();
    expect(requested(after.claims, after.free, 'P4', [3, 3, 0])).toBeNull();
    const unsafe = requested(after.claims, after.free, 'P0', [0, 2, 0]);
    expect(unsafe === null ? null : bankersOrder(unsafe.claims, unsafe.free)).toBeNull();
    expect(unsafe).not.toBeNull();
  });

  /** The same as trains: each block is a kind of which there is one; a train claims what its shortest route passes, and keeps where it ends. */
  function asClaims(railroad: Railroad, { trains }: Situation): readonly Claim[] {
    const units = (list: readonly (string | undefined)[]) =>
      railroad.document.blocks.map(({ id }) => (list.includes(id) ? 1 : 0));
    return trains.map(({ id, blocks, trail: [head], to }) => {
      const isThere = to === null || blocks[0] === to || head === undefined;
      const route = isThere ? undefined : routesToBlock(railroad, head, to)[0];
      return {
        id,
        holds: units(blocks),
        most: units([...blocks, ...(route?.blocks ?? [])]),
        keeps: units([route?.blocks.at(-1) ?? blocks[0]]),
      };
    });
  }
  it('as trains on lines with stations: what the banker passes is safe, and he refuses safe states too, since he wants the whole claim at once (so JRTPM 2017.05.001 of railways)', () => {
    const seen = { passed: 0, refusedSafe: 0 };
    for (const stations of [
      [1, 2, 1, 2, 1],
      [2, 1, 1, 2, 1],
      [1, 3, 1, 1],
    ]) {
      const railroad = indexRailroad(withCrews(stationsTrack(stations), 4));
      for (let seed = 1; seed <= 60; seed += 1) {
        const made = randomSituation(railroad, chanceOf(seed), { trains: 3, reachable: true });
        if (made === null) continue;
        const claims = asClaims(railroad, made.situation);
        const free = railroad.document.blocks.map(
          (_, kind) => 1 - claims.reduce((sum, { holds }) => sum + (holds[kind] ?? 0), 0),
        );
        const verdict = judged(railroad, made.situation);
        if (bankersOrder(claims, free) !== null) {
          seen.passed += 1;
          expect(verdict, `${stations.join('-')}, ${seed}`).toBe('safe');
        } else if (verdict === 'safe') seen.refusedSafe += 1;
      }
    }
    expect(seen.passed).toBeGreaterThan(30);
    expect(seen.refusedSafe).toBeGreaterThan(0);
  });
});

describe('W4: the census of safe and unsafe states on a line (computed: by counting, and by exhaustion)', () => {
  const LETTERS = ['A', 'B', 'C', 'D', 'E', 'F'];
  it.each([2, 3, 4, 5, 6])(
    '%i blocks, one train each way: half of all states are safe, those where they have passed',
    (count) => {
      // Of count (count - 1) placements the eastbound is east of the westbound in half, and nobody passes on a line.
      const names = LETTERS.slice(0, count);
      const railroad = stepRailroad(lineTrack(names), 2);
      const east = (index: number) => `e-${names[index]}:${index === count - 1 ? 'n2' : `g${index + 1}`}`;
      const west = (index: number) => `e-${names[index]}:${index === 0 ? 'n1' : `g${index}`}`;
      const census = { safe: 0, gridlock: 0, undecided: 0 };
      for (let one = 0; one < count; one += 1)
        for (let other = 0; other < count; other += 1) {
          if (one === other) continue;
          const json = trainsAt(
            { at: east(one), to: names[count - 1] ?? '' },
            { at: west(other), to: names[0] ?? '' },
          );
          const situation = situationOf(railroad, json);
          if (situation === null) throw new Error('expected two trains on a line');
          const verdict = judged(railroad, situation);
          expect(verdict).toBe(one > other ? 'safe' : 'gridlock');
          census[verdict as keyof typeof census] += 1;
        }
      expect(census).toEqual({
        safe: (count * (count - 1)) / 2,
        gridlock: (count * (count - 1)) / 2,
        undecided: 0,
      });
    },
  );

  it.each([
    [[1, 2, 1], 2, { safe: 16, gridlock: 32 }],
    [[1, 1, 2, 1, 1], 2, { safe: 36, gridlock: 84 }],
    [[1, 2, 1, 2, 1], 3, { safe: 284, gridlock: 1396 }],
  ] as const)(
    'stations %j, %i trains to the ends of the line: every placement as an exhaustive search has it',
    (stations, count, counted) => {
      const railroad = indexRailroad(withCrews(stationsTrack(stations), count));
      const spots = stoppingSpots(railroad).map(({ edge, toward }) => `${edge}:${toward}`);
      const goals = ['P0', `P${stations.length - 1}`];
      const census = { safe: 0, gridlock: 0 };
      const place = (at: readonly string[]): void => {
        if (at.length < count) {
          for (const spot of spots) if (!at.includes(spot)) place([...at, spot]);
          return;
        }
        // The first goes west, the second east, a third is in the way.
        const json = trainsAt(
          ...at.map((spot, index) =>
            index < goals.length ? { at: spot, to: goals[index] ?? '' } : { at: spot },
          ),
        );
        const situation = situationOf(railroad, json);
        const all = situation === null ? null : exhaustiveSafe(railroad, situation, 100_000);
        if (situation === null || all === null) return;
        const verdict = judged(railroad, situation);
        expect(verdict, at.join(' ')).toBe(all.safe ? 'safe' : 'gridlock');
        census[all.safe ? 'safe' : 'gridlock'] += 1;
      };
      place([]);
      expect(census).toEqual(counted);
    },
  );
});
