/** How many trains keep moving, and what would help: small railroads whose answer is known by trying everything. */
import { describe, expect, it } from 'vitest';
import type { ThrottleId } from '../../shared-model/ids.ts';
import { capacity } from '../../shared-model/planning/capacity.ts';
import type { RailroadDocument } from '../../shared-model/railroad/document.ts';
import { indexRailroad } from '../../shared-model/railroad/railroad.ts';
import { passingSidingExample } from '../support/example.ts';
import { plainRailroad, plainRuns, plainTrain } from '../support/plain-situation.ts';
import { lineTrack, ringTrack, stationsTrack, withCrews } from '../support/step-track.ts';

const effort = { seed: 1, shouldStop: () => false };
const capacityOf = (document: RailroadDocument) => capacity(indexRailroad(document), effort);
const boundsOf = (document: RailroadDocument) =>
  capacity(indexRailroad(document), { ...effort, tryChanges: false });
const track = (document: RailroadDocument) =>
  boundsOf(document).bounds.find(({ limit }) => limit === 'track');

describe('by the track', () => {
  // published-values W5: a ring of four blocks is live iff it has at most three trains.
  it('three trains keep moving on a ring of four blocks, and a fourth is shown to lock', () => {
    expect(track(withCrews(ringTrack(4), 4))).toMatchObject({ trains: 3, proven: true });
  });
  it('one keeps moving on a line, where trains turn back at the ends alone', () => {
    expect(track(withCrews(lineTrack(['A', 'B', 'C']), 2))).toMatchObject({ trains: 1, proven: true });
  });
  // published-values W3 c: a passing loop between two ends; of four blocks one has to be empty.
  it('three keep moving between two ends with a passing loop', () => {
    expect(track(withCrews(stationsTrack([1, 2, 1]), 4))).toMatchObject({ trains: 3, proven: true });
  });
});

describe('with too little memory to go through what one train can do', () => {
  it('nothing is said to be shown', () => {
    const answer = capacity(indexRailroad(withCrews(ringTrack(4), 4)), {
      ...effort,
      tryChanges: false,
      bytes: 50_000,
    });
    expect(answer.bounds.find(({ limit }) => limit === 'track')).toMatchObject({ trains: 0, proven: false });
  });
});

describe('the other bounds', () => {
  /** Blocks so long that the hands keep up. */
  const longRing = (cabs: number): RailroadDocument => {
    const ring = withCrews(ringTrack(6), cabs);
    return { ...ring, edges: ring.edges.map((edge) => ({ ...edge, length: 8000 })) };
  };
  const ring = longRing(4);
  it('are the throttles, one a train', () => {
    expect(boundsOf(longRing(2))).toMatchObject({ trains: 2 });
  });
  it('are the amps: 180 VA at 18 V is 10 A, which is five trains of 2 A, and two of 5 A', () => {
    const hungry = { ...ring, trains: ring.trains.map((train) => ({ ...train, amps: 5 })) };
    const answer = boundsOf(hungry);
    expect(answer.trains).toBe(2);
    expect(answer.bounds).toContainEqual(
      expect.objectContaining({ limit: 'amps', trains: 2, about: ['north'] }),
    );
  });
  it('are the hands: nobody keeps up with four fast trains on blocks of a hand’s breadth', () => {
    const short = {
      ...ring,
      edges: ring.edges.map((edge) => ({ ...edge, length: 300 })),
      trains: ring.trains.map((train) => ({ ...train, length: 200 })),
    };
    expect(boundsOf(short).bounds[0]).toMatchObject({ limit: 'hands' });
  });
  it('and the share of the round in which each block is taken is never above one', () => {
    const { round } = boundsOf(ring);
    expect(round?.trains).toHaveLength(4);
    for (const { share } of round?.occupancy ?? []) expect(share).toBeLessThanOrEqual(1 + 1e-9);
  });
});

/** Ways from block to block by the second reading: for every cab, every block to which runs lead from another, for a train of no length to speak of. */
function waysByHand(document: RailroadDocument): number {
  const railroad = plainRailroad(document);
  let ways = 0;
  for (const { id: cab } of document.throttles)
    for (const { id: from } of document.blocks) {
      const reached = new Set<string>();
      const seen = new Set<string>();
      const queue = document.edges.flatMap((edge) =>
        edge.between.flatMap((toward) => {
          const train = plainTrain(railroad, { edge: edge.id, toward }, 1, {});
          return train.spots[0]?.isStop === true && train.spots[0].block === from ? [train] : [];
        }),
      );
      const isFed = (): boolean => {
        const source = document.blocks.find(({ id }) => id === from)?.source;
        if (source === undefined || 'toggle' in source) return false;
        if ('throttle' in source) return source.throttle === cab;
        return document.selectors.find(({ id }) => id === source.selector)?.positions.includes(cab) === true;
      };
      if (!isFed()) continue;
      for (const train of queue) {
        const name = train.spots[0]?.name ?? '';
        if (seen.has(name)) continue;
        seen.add(name);
        for (const { after } of plainRuns(railroad, train, 1, cab as ThrottleId, false)) {
          reached.add(after.spots[0]?.block ?? '');
          queue.push(after);
        }
      }
      reached.delete(from);
      ways += reached.size;
    }
  return ways;
}

describe('the best next selector', () => {
  /** A railroad of selectors, some of whose blocks are wired straight to a throttle. */
  const halfWired = (
    wired: RailroadDocument,
    straight: Readonly<Record<string, string>>,
  ): RailroadDocument => ({
    ...wired,
    blocks: wired.blocks.map((block) => {
      const throttle = straight[block.id];
      return throttle === undefined ? block : { ...block, source: { throttle: throttle as ThrottleId } };
    }),
  });

  it.each<[string, number[], number, Record<string, string>]>([
    [
      'a loop between plain track, both ends and a track of it wired straight',
      [1, 2, 1, 1],
      3,
      { P0: '1', S1a: '2', P3: '1' },
    ],
    [
      'plain track before a loop, its ends and its throat wired straight',
      [1, 1, 2, 1],
      2,
      { P0: '1', P1: '2', P3: '2' },
    ],
  ])('of %s is the one that exhaustion finds, and so is the second best', (_, stations, cabs, straight) => {
    const wired = withCrews(stationsTrack(stations), cabs);
    const before = halfWired(wired, straight);
    const now = { trains: track(before)?.trains ?? 0, ways: waysByHand(before) };
    const tried = Object.keys(straight)
      .map((block) => {
        const rest = Object.fromEntries(Object.entries(straight).filter(([id]) => id !== block));
        const after = halfWired(wired, rest);
        return {
          block,
          trains: track(after)?.trains ?? 0,
          moreWays: waysByHand(after) - now.ways,
        };
      })
      .filter(({ trains, moreWays }) => trains > now.trains || moreWays > 0)
      .sort((one, other) => other.trains - one.trains || other.moreWays - one.moreWays);
    expect(tried.length).toBeGreaterThan(1);
    const { helps } = capacityOf(before);
    const selectors = helps.filter(({ kind }) => kind === 'selector');
    expect(selectors.map(({ block, trains, moreWays }) => ({ block, trains, moreWays }))).toEqual(tried);
  });

  it('on the passing siding is the one for the straight-wired east end', () => {
    expect(capacityOf(passingSidingExample).helps[0]).toMatchObject({
      kind: 'selector',
      block: 'B4',
      trains: 2,
    });
  });
});

it('finds that a siding lets more trains keep moving on a line', () => {
  const line = withCrews(lineTrack(['A', 'B', 'C']), 2, 900);
  const best = capacityOf(line).helps[0];
  expect(best).toMatchObject({ trains: 2 });
});

it('says of a railroad without trains that none keeps moving', () => {
  expect(capacityOf({ ...withCrews(lineTrack(['A', 'B']), 1), trains: [] })).toMatchObject({
    trains: 0,
    round: null,
  });
});
