/** What goes into the notebook: every feeder once, wire added up by gauge and by way, dials in their physical order, labels for all. */
import { describe, expect, test } from 'vitest';
import { demoRailroad } from '../../../shared-model/demo/railroad.ts';
import type { RailroadDocument } from '../../../shared-model/railroad/document.ts';
import { dialSpots } from '../../../shared-model/railroad/notebook/dial-spots.ts';
import { labelsOf } from '../../../shared-model/railroad/notebook/labels.ts';
import { planStyles } from '../../../shared-model/railroad/notebook/plan-styles.ts';
import { wiringSchedule } from '../../../shared-model/railroad/notebook/wiring-schedule.ts';
import { indexRailroad } from '../../../shared-model/railroad/railroad.ts';
import { passingSidingExample } from '../../support/example.ts';

const changed = (change: (document: RailroadDocument) => void): RailroadDocument => {
  const document = structuredClone(passingSidingExample);
  change(document);
  return document;
};
const feederOf = (document: RailroadDocument, block: number) => {
  const feeder = document.blocks[block]?.feeders[0];
  if (feeder === undefined) throw new Error('the example has a feeder there');
  return feeder;
};

describe('the wiring schedule', () => {
  test('has a row for every feeder, with what feeds its block', () => {
    expect(
      wiringSchedule(passingSidingExample).feeders.map(({ mark, source, edge }) => [mark, source, edge]),
    ).toEqual([
      ['1', 'selector K1 (1)', 'e1'],
      ['2', 'selector K2 (2)', 'e3'],
      ['3', 'selector K3 (3)', 'e5'],
      ['4', 'straight from throttle 3 (Cab 3)', 'e8'],
    ]);
  });

  test('adds wire up by gauge, heaviest first, the common bus with it: 6 m of 12; 3.6 + 2.4 + 2.7 + 5.4 m of 14', () => {
    expect(wiringSchedule(passingSidingExample).totals).toEqual([
      { awg: 12, run: 6000, pieces: 1 },
      { awg: 14, run: 14_100, pieces: 4 },
    ]);
  });

  test('counts every piece of a feeder by its own gauge, and tells how many feeders have no wire yet', () => {
    const document = changed((draft) => {
      Object.assign(feederOf(draft, 0), {
        wire: [
          { awg: 14, run: 3000 },
          { awg: 20, run: 150 },
        ],
      });
      delete feederOf(draft, 1).wire;
    });
    expect(wiringSchedule(document)).toMatchObject({
      totals: [
        { awg: 12, run: 6000 },
        { awg: 14, run: 11_100, pieces: 3 },
        { awg: 20, run: 150, pieces: 1 },
      ],
      notGiven: 1,
    });
  });

  test('adds up each cable route; what has none comes last', () => {
    const document = changed((draft) => {
      feederOf(draft, 0).route = 'north duct';
      feederOf(draft, 3).route = 'north duct';
      feederOf(draft, 2).route = 'bench edge';
    });
    expect(wiringSchedule(document).routes).toEqual([
      { route: 'bench edge', feeders: 1, totals: [{ awg: 14, run: 2700, pieces: 1 }] },
      { route: 'north duct', feeders: 2, totals: [{ awg: 14, run: 9000, pieces: 2 }] },
      { route: null, feeders: 1, totals: [{ awg: 14, run: 2400, pieces: 1 }] },
    ]);
  });

  test('the totals of all routes and the bus are the totals of all', () => {
    const { routes, totals } = wiringSchedule(demoRailroad);
    const along = routes.flatMap((route) => route.totals).reduce((sum, { run }) => sum + run, 0);
    const inAll = totals.reduce((sum, { run }) => sum + run, 0);
    expect(inAll).toBe(along + (demoRailroad.commonBus?.run ?? 0));
  });

  test('says what it can of a draft that is broken', () => {
    const document = changed((draft) => {
      draft.selectors = [];
      draft.edges = [];
    });
    expect(wiringSchedule(document).feeders[0]).toMatchObject({ source: 'selector K1', edge: 'e1' });
  });
});

describe('a dial', () => {
  test('with end stops steps by 30 degrees about the top', () => {
    expect(dialSpots({ positions: ['off', null, 'off'], stops: true }).map(({ degrees }) => degrees)).toEqual(
      [-30, 0, 30],
    );
  });

  test('of many positions still leaves its bottom free', () => {
    const spots = dialSpots({ positions: Array.from({ length: 16 }, () => 'off' as const), stops: true });
    expect(spots[0]?.degrees).toBe(-150);
    expect(spots.at(-1)?.degrees).toBe(150);
  });

  test('without end stops goes all the way round', () => {
    const spots = dialSpots({ positions: ['off', 'off', null, 'off'], stops: false });
    expect(spots.map(({ degrees }) => degrees)).toEqual([0, 90, 180, 270]);
  });
});

test('labels: two for each feeder, one for each knob, supply and turnout, no key twice', () => {
  const labels = labelsOf(demoRailroad);
  const feeders = demoRailroad.blocks.reduce((sum, block) => sum + block.feeders.length, 0);
  const { selectors, toggles, supplies, nodes } = demoRailroad;
  const turnouts = nodes.filter(({ kind }) => kind === 'turnout').length;
  expect(labels).toHaveLength(2 * feeders + selectors.length + toggles.length + supplies.length + turnouts);
  expect(new Set(labels.map(({ key }) => key)).size).toBe(labels.length);
});

test('on the plan no two blocks of the demo that meet at a gap have the same kind of line', () => {
  const railroad = indexRailroad(demoRailroad);
  const styles = planStyles(railroad);
  for (const node of demoRailroad.nodes.filter(({ kind }) => kind === 'gap')) {
    const [one, other] = (railroad.edgesAt.get(node.id) ?? []).map((edge) => railroad.blockOfEdge.get(edge));
    if (one === undefined || other === undefined || one === other) continue;
    expect(styles.get(one)).not.toBe(styles.get(other));
  }
});
