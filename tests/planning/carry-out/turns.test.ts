/** A kept plan: whose turn it is, and how far the trains have come by the reports. */
import { describe, expect, it } from 'vitest';
import { drawsFrom } from '../../../shared-model/chance.ts';
import { atTheBeginning, goneOn, howFarAfter } from '../../../shared-model/planning/carry-out/how-far.ts';
import { lateTrains } from '../../../shared-model/planning/carry-out/late-trains.ts';
import { turnsOf } from '../../../shared-model/planning/carry-out/whose-turn.ts';
import { plan } from '../../../shared-model/planning/plan.ts';
import { parseSituation } from '../../../shared-model/planning/situation.ts';
import { planTiming } from '../../../shared-model/planning/timing.ts';
import { indexRailroad } from '../../../shared-model/railroad/railroad.ts';
import type { SessionState } from '../../../shared-model/session/state.ts';
import { carried, expectGood, forked, lateUpTo, rehearsed, THREE } from '../../support/crew/rehearsed.ts';
import { plainNodes } from '../../support/line-of-track.ts';
import { STEP_MM, trainsAt, withCrews } from '../../support/step-track.ts';
import { SCREEN_OPTIONS } from '../../support/three-trains.ts';

describe('whose turn it is', () => {
  const { kept } = THREE;
  const turnOf = (train: string, far = atTheBeginning(kept), given: readonly number[] = []) =>
    turnsOf(kept, far, new Set(given))[kept.orders.findIndex(({ order }) => order.train === train)];

  it('is at first the train’s for which no other has to leave anything', () => {
    expect(turnOf('t3')).toEqual({ is: 'next' });
    expect(turnOf('t24')).toMatchObject({ is: 'held', until: [{ train: 't3', block: 'B5' }] });
    expect(turnOf('t12')).toMatchObject({ is: 'held' });
  });

  it('comes to the next when the train before it has left what it needs, however late', () => {
    const first = kept.orders.findIndex(({ order }) => order.train === 't3');
    const far = new Map(atTheBeginning(kept)).set('t3' as never, { entered: 2, left: 0, astray: null });
    expect(turnOf('t24', far, [first])).toMatchObject({ is: 'held' });
    far.set('t3' as never, { entered: 2, left: 1, astray: null });
    expect(turnOf('t24', far, [first])).toEqual({ is: 'next' });
    expect(turnOf('t3', far, [first])).toEqual({ is: 'given' });
  });

  it('is over for an order whose train has gone so far without it', () => {
    const far = new Map(atTheBeginning(kept)).set('t3' as never, { entered: 5, left: 3, astray: null });
    expect(turnOf('t3', far)).toEqual({ is: 'given' });
  });
});

describe('how late the trains are', () => {
  const { kept, answer } = THREE;
  const timing = planTiming(THREE.railroad, THREE.situation, answer, SCREEN_OPTIONS);
  const behind = (since: number, far = atTheBeginning(kept)) =>
    lateTrains(kept, far, turnsOf(kept, far, new Set([0])), since, 15);
  const enters = timing.blocks.find(({ train, headIn }) => train === 't3' && headIn !== null)?.headIn ?? 0;

  it('is how long ago each was planned to come into the next block of its way; less than a wished time is not told', () => {
    expect(enters).toBeGreaterThan(0);
    expect(behind(enters + 14.9).map(({ train }) => train)).not.toContain('t3');
    expect(behind(enters + 20).find(({ train }) => train === 't3')?.by).toBeCloseTo(20, 6);
  });

  it('names those whose order was due by now and who wait for it', () => {
    const first = kept.orders.find(({ order }) => order.train === 't24')?.order.at ?? 0;
    const keepsWaiting = (since: number) => behind(since).find(({ train }) => train === 't3')?.keepsWaiting;
    expect(keepsWaiting(Math.max(first, enters + 15) + 1)).toContain('t24');
    const gone = new Map(atTheBeginning(kept)).set('t3' as never, { entered: 2, left: 2, astray: null });
    expect(behind(first + 60, gone).find(({ train }) => train === 't3')?.keepsWaiting ?? []).not.toContain(
      't24',
    );
  });

  it('is nothing for a train that has come to the end of its way', () => {
    const way = kept.ways.get('t3' as never) ?? [];
    const there = new Map(atTheBeginning(kept)).set('t3' as never, {
      entered: way.length,
      left: way.length - 1,
      astray: null,
    });
    expect(behind(10_000, there).map(({ train }) => train)).toEqual(expect.arrayContaining(['t12', 't24']));
    expect(behind(10_000, there).map(({ train }) => train)).not.toContain('t3');
  });
});

describe('how far the trains have come', () => {
  const blocksOf = (blocks: readonly string[]) =>
    ({ trains: { t3: { placed: true, lost: false, blocks } } }) as unknown as SessionState;
  const way = THREE.kept.ways.get('t3' as never) ?? [];
  const first = atTheBeginning(THREE.kept);
  const come = (blocks: readonly string[], before = first) =>
    goneOn(THREE.kept, before, blocksOf(blocks)).get('t3' as never);

  it('is read from the blocks that a train is in: entered with its head, left with its tail', () => {
    expect(come([way[1] ?? '', way[0] ?? ''])).toEqual({ entered: 2, left: 0, astray: null });
    expect(come([way[1] ?? ''])).toEqual({ entered: 2, left: 1, astray: null });
    expect(come([way[3] ?? '', way[2] ?? ''])).toEqual({ entered: 4, left: 2, astray: null });
  });

  it('goes back with a correction, and says where a train is that has left its way', () => {
    const far = goneOn(THREE.kept, first, blocksOf([way[2] ?? '']));
    expect(come([way[1] ?? ''], far)).toEqual({ entered: 2, left: 1, astray: null });
    expect(come(['B14'], far)).toEqual({ entered: 3, left: 2, astray: 'B14' });
  });

  it('is the same when it is read from the log afterwards', () => {
    const evening = forked(THREE);
    const done = carried(THREE, () => 0);
    expect(howFarAfter(THREE.kept, first, evening.state, done.events, 1)).toEqual(done.far);
    expect(
      howFarAfter(THREE.kept, first, evening.state, done.events, done.evening.state.entries + 1),
    ).toEqual(first);
  });
});

it('two lines that cross on an insulated diamond have it one after the other, though they share no block', () => {
  const railroad = indexRailroad(
    withCrews(
      {
        nodes: [
          ...plainNodes('n1', 'n2', 'n3', 'n4', 'g1', 'g2', 'g3', 'g4'),
          {
            id: 'X',
            kind: 'crossing',
            ways: [
              ['p1', 'p2'],
              ['q1', 'q2'],
            ],
            insulated: true,
          } as never,
        ],
        edges: [
          ['a', 'n1', 'g1', STEP_MM],
          ['p1', 'g1', 'X', STEP_MM],
          ['p2', 'X', 'g2', STEP_MM],
          ['b', 'g2', 'n2', STEP_MM],
          ['c', 'n3', 'g3', STEP_MM],
          ['q1', 'g3', 'X', STEP_MM],
          ['q2', 'X', 'g4', STEP_MM],
          ['d', 'g4', 'n4', STEP_MM],
        ],
        blocks: { A: 'a', P: 'p1', B: 'b', C: 'c', Q: 'q1', D: 'd' },
      },
      2,
    ),
  );
  const parsed = parseSituation(railroad, trainsAt({ at: 'a:g1', to: 'B' }, { at: 'c:g3', to: 'D' }));
  if (!parsed.ok) throw new Error(parsed.malformed.says);
  const answer = plan(railroad, parsed.value, SCREEN_OPTIONS, {
    draw: drawsFrom(1),
    shouldStop: () => false,
    patience: 100,
  });
  const the = rehearsed(railroad, parsed.value, answer);
  const waits = the.kept.orders.map(({ after }) => after.map(({ block }) => String(block)));
  expect(waits).toContainEqual([]);
  expect([['P'], ['Q']]).toContainEqual(waits.find((blocks) => blocks.length > 0));
  const late = (train: string) => carried(the, (id) => (id === train ? 40 : 0));
  for (const train of ['t1', 't2']) expectGood(the, late(train), train);
  for (const seed of [1, 2, 3, 4, 5]) expectGood(the, carried(the, lateUpTo(3, seed)), `${seed}`);
});
