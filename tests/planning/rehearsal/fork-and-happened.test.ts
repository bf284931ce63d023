/** A rehearsal taken from a live evening, and held against what happened after it. */
import { describe, expect, it } from 'vitest';
import { eveningOfSituation } from '../../../shared-model/planning/rehearsal/fork-evening.ts';
import {
  situationOfSetting,
  situationOfState,
} from '../../../shared-model/planning/rehearsal/fork-situation.ts';
import { comparedWith, enteredIn } from '../../../shared-model/planning/rehearsal/happened.ts';
import { ordersOfPlan } from '../../../shared-model/planning/rehearsal/plan-orders.ts';
import { playPlan } from '../../../shared-model/planning/rehearsal/play-plan.ts';
import { parseSituation } from '../../../shared-model/planning/situation.ts';
import { planTiming } from '../../../shared-model/planning/timing.ts';
import { type Evening, newEvening, take } from '../../../shared-model/session/evening.ts';
import type { SessionInput } from '../../../shared-model/session/input.ts';
import { demo, SCREEN_OPTIONS, threeTrains, threeTrainsPlan } from '../../support/three-trains.ts';

function said(inputs: readonly object[], from: Evening = newEvening(demo)): Evening {
  return inputs.reduce((evening: Evening, input, second) => {
    const { evening: after, event } = take(evening, {
      at: evening.state.at + second,
      input: input as SessionInput,
    });
    expect(event.outcome, JSON.stringify([input, event.reasons])).not.toBe('refused');
    return after;
  }, from);
}

const OPENED = [
  { do: 'open-session' },
  { do: 'assign-cab', cab: '1', person: 'Avery' },
  { do: 'assign-cab', cab: '2', person: 'Blake' },
  { do: 'selector-stands-at', selector: 'K5', position: '1' },
  { do: 'turnout-stands-at', turnout: 'T7', position: 'reverse' },
  { do: 'place-train', train: 't3', edge: 'e11', toward: 'g1', cab: '1' },
  { do: 'place-train', train: 't12', edge: 'e32', toward: 'g12', cab: '2' },
  { do: 'declare', train: 't3', to: 'B8' },
  { do: 'start' },
];

describe('a rehearsal from the live state', () => {
  it('has the trains where they stand, their cabs, the knobs, and where they are declared for', () => {
    const { json, left } = situationOfState(demo, said(OPENED).state);
    expect(json.trains).toEqual([
      { train: 't3', edge: 'e11', toward: 'g1', cab: '1', to: 'B8' },
      { train: 't12', edge: 'e32', toward: 'g12', cab: '2' },
    ]);
    expect(json.turnouts).toMatchObject({ T7: 'reverse', T1: 'normal' });
    expect(json.selectors).toMatchObject({ K5: '1', K3: 'off' });
    expect(left).toEqual([]);
    expect(parseSituation(demo, json).ok).toBe(true);
  });

  it('knows a train as long as it is tonight, a guest, and cars that stand without an engine', () => {
    const evening = said(
      [
        { do: 'add-train', train: 'g88', name: 'Guest', length: 900, amps: 2 },
        { do: 'make-up', train: 't3', length: 1000, amps: 2 },
        { do: 'place-train', train: 'g88', edge: 'e6', toward: 'g4', cab: '1' },
        { do: 'set-out', train: 't12', cut: 'cut1', length: 300, edge: 'e16', toward: 'g8' },
      ],
      said(OPENED.slice(0, -1)),
    );
    const { railroad, json } = situationOfState(demo, evening.state);
    const lengths = new Map(railroad.document.trains.map(({ id, length }) => [String(id), length]));
    expect([lengths.get('t3'), lengths.get('t12'), lengths.get('g88'), lengths.get('cut1')]).toEqual([
      1000, 1000, 900, 300,
    ]);
    expect(json.trains.map(({ train }) => train)).toEqual(['t3', 't12', 'g88', 'cut1']);
  });

  it('leaves out what it cannot place, and says which train and why', () => {
    const evening = said([{ do: 'derailed', train: 't12' }], said(OPENED));
    const { json, left } = situationOfState(demo, evening.state);
    expect(json.trains.map(({ train }) => train)).toEqual(['t3']);
    expect(left).toEqual(['No. 12 is off the rails.']);
  });

  it('from a setting has its knobs and no train', () => {
    const setting = demo.document.settings.find(({ id }) => id === 'meet');
    if (setting === undefined) throw new Error('the demo has no such setting');
    const json = situationOfSetting(setting);
    expect(json).toMatchObject({ trains: [], selectors: { K3: '1', K4: '2' }, turnouts: { T7: 'reverse' } });
    expect(parseSituation(demo, json).ok).toBe(true);
  });
});

describe('what happened', () => {
  const situation = threeTrains();
  const plan = threeTrainsPlan();
  const timing = planTiming(demo, situation, plan, SCREEN_OPTIONS);
  const checks = [
    { a: 'north', b: 'south', voltsA: 18, voltsB: 18, voltsAcross: 0.3, at: 0, lapsed: false },
  ] as never;
  const { evening } = eveningOfSituation(demo, situation, { checks });
  const { steps } = playPlan(evening, plan, timing, ordersOfPlan(demo, situation, plan.moves, timing));
  const events = steps.map(({ event }) => event);
  const entered = enteredIn(evening.state, events, 1);

  it('as planned is on time, in the order planned', () => {
    const rows = comparedWith(timing.blocks, entered, evening.state.at);
    expect(rows).toHaveLength(timing.blocks.filter(({ headIn }) => headIn !== null).length);
    for (const { late, outOfOrder } of rows) {
      expect(late).toBeCloseTo(0, 2);
      expect(outOfOrder).toBe(false);
    }
  });

  it('later than planned is so many seconds late, and what has not come yet has no time', () => {
    const half = entered.slice(0, 4).map((one) => ({ ...one, at: one.at + 20 }));
    const rows = comparedWith(timing.blocks, half, evening.state.at);
    expect(rows.filter(({ late }) => late !== null).map(({ late }) => Math.round(late ?? 0))).toEqual([
      20, 20, 20, 20,
    ]);
    expect(rows.filter(({ happened }) => happened === null)).toHaveLength(rows.length - 4);
  });

  it('in another order than planned says so at the blocks where trains changed places', () => {
    const shared = entered.find(({ block, train }) =>
      entered.some((other) => other.block === block && other.train !== train),
    );
    expect(shared).toBeDefined();
    const turned = entered
      .map((one) => ({ ...one, at: one.block === shared?.block ? 1000 - one.at : one.at }))
      .sort((one, other) => one.at - other.at);
    const wrong = comparedWith(timing.blocks, turned, 0).filter(({ outOfOrder }) => outOfOrder);
    expect(new Set(wrong.map(({ block }) => block))).toEqual(new Set([shared?.block]));
  });
});
