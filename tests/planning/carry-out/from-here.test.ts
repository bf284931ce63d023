/** Another plan from the present state, with trains on their way by the orders of the plan before. */
import { describe, expect, it } from 'vitest';
import { drawsFrom } from '../../../shared-model/chance.ts';
import { fromHere } from '../../../shared-model/planning/carry-out/from-here.ts';
import { atTheBeginning, goneOn } from '../../../shared-model/planning/carry-out/how-far.ts';
import { turnsOf } from '../../../shared-model/planning/carry-out/whose-turn.ts';
import { plan } from '../../../shared-model/planning/plan.ts';
import { parseSituation, type Situation } from '../../../shared-model/planning/situation.ts';
import { take } from '../../../shared-model/session/evening.ts';
import { foldEvents } from '../../../shared-model/session/fold.ts';
import {
  carried,
  expectGood,
  forked,
  lateUpTo,
  MEETS,
  rehearsed,
  THREE,
} from '../../support/crew/rehearsed.ts';
import { demo, SCREEN_OPTIONS, THREE_TRAINS } from '../../support/three-trains.ts';

const wishOf = ({ id, to, mph, trail, cab }: Situation['trains'][number]) => ({
  train: id,
  ...trail[0],
  cab,
  mph,
  ...(to === null ? {} : { to }),
});

describe('another plan from here', () => {
  it('begins with trains that are on their way where their orders take them, and brings everybody there', () => {
    let onTheirWay = 0;
    for (const [index, the] of [THREE, ...MEETS].entries()) {
      const half = (the.answer.total ?? 0) / (2 * the.situation.trains.length);
      const evening = forked(the);
      const first = carried(the, lateUpTo(5, index), { until: half });
      const then = first.events.filter(({ at }) => at - evening.state.at <= half);
      const wishes = THREE === the ? THREE_TRAINS.trains : the.situation.trains.map(wishOf);
      const here = fromHere(the.railroad, foldEvents(evening.state, then), wishes as never, half);
      onTheirWay += here.underWay.size;
      expect(here.left, `${index}`).toEqual([]);
      const parsed = parseSituation(here.railroad, here.json);
      expect(parsed, `${index}`).toMatchObject({ ok: true });
      if (!parsed.ok) continue;
      // What was given by then has been run since; that is where the plan has them.
      for (const train of parsed.value.trains)
        expect(first.evening.state.trains[train.id]?.trail[0], `${index}: ${train.id}`).toEqual(
          train.trail[0],
        );
      const answer = plan(here.railroad, parsed.value, SCREEN_OPTIONS, {
        draw: drawsFrom(1),
        shouldStop: () => false,
        patience: 60,
      });
      if (answer.verdict !== 'planned') throw new Error(`${index}: no plan from here`);
      const again = rehearsed(here.railroad, parsed.value, answer, here.underWay);
      const done = carried(again, lateUpTo(5, index + 50), {}, first.evening);
      expectGood(again, done, `${index}`);
    }
    expect(onTheirWay).toBeGreaterThan(5);
  });

  it('holds what another train is still on its way through', () => {
    const begun = forked(THREE);
    const order = THREE.kept.orders.find((one) => one.order.train === 't3')?.order;
    if (order === undefined) throw new Error('t3 has no order');
    const { evening } = take(begun, { at: begun.state.at, input: order.input });
    const here = fromHere(demo, evening.state, THREE_TRAINS.trains as never, 0);
    const parsed = parseSituation(here.railroad, here.json);
    if (!parsed.ok) throw new Error(parsed.malformed.says);
    expect(here.json.trains.find(({ train }) => train === 't3')).toMatchObject({ to: 'B8', notBefore: 23 });
    const answer = plan(here.railroad, parsed.value, SCREEN_OPTIONS, {
      draw: drawsFrom(1),
      shouldStop: () => false,
      patience: 60,
    });
    const { kept } = rehearsed(here.railroad, parsed.value, answer, here.underWay);
    expect(kept.ways.get('t3' as never)).toEqual(['B5', 'B1', 'B2', 'B7', 'B8']);
    const far = goneOn(kept, atTheBeginning(kept), evening.state);
    expect(turnsOf(kept, far, new Set()).map(({ is }) => is)).toEqual(['held', 'held']);
  });
});
