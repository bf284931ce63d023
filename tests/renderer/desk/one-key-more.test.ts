/** One key for what the screen offers: what mends the alarm on top, straight on as far as it is free, a way out with the order again. */
import { describe, expect, it } from 'vitest';
import { doingOfAct, grantTo } from '../../../renderer/desk/desk-acts.ts';
import { nextAct, pendingThrows } from '../../../renderer/desk/next-act.ts';
import { onwards } from '../../../renderer/desk/onward.ts';
import { firstPick } from '../../../renderer/desk/option.ts';
import { waysOut } from '../../../renderer/desk/ways-out.ts';
import type { TrainId } from '../../../shared-model/ids.ts';
import { contextOf, madeUp, played, railroad, running, taken } from './demo-evening.ts';

const derailed = played(running, { do: 'derailed', train: 't7' });

describe('what the alarm on top offers', () => {
  it('is done where it is one thing, and a list where it is several', () => {
    expect(doingOfAct('alarm-mended', contextOf(derailed), [])).toMatchObject({
      kind: 'do',
      option: { does: { items: [{ input: { do: 'rerailed', train: 't7' } }] } },
    });
    const back = played(derailed, { do: 'rerailed', train: 't7' });
    expect(doingOfAct('alarm-mended', contextOf(back), [])).toMatchObject({
      kind: 'choose',
      options: [{ says: "3 is No. 7's" }, { says: '3 is empty' }],
    });
  });

  it('is nothing where no alarm stands, and NEXT where a throw ends it', () => {
    expect(doingOfAct('alarm-mended', contextOf(running), [])).toEqual({
      kind: 'tell',
      says: 'No alarm stands.',
    });
    const wrong = played(running, { do: 'selector-stands-at', selector: 'K3', position: '2' });
    expect(doingOfAct('alarm-mended', contextOf(wrong), [])).toMatchObject({ kind: 'tell' });
  });
});

it('a knob that stands wrong is next to be turned while the evening is made up', () => {
  const wrong = played(madeUp, { do: 'selector-stands-at', selector: 'K3', position: '2' });
  const context = contextOf(wrong);
  expect(nextAct(context, pendingThrows(context, []), [])).toMatchObject({
    kind: 'throw',
    pending: { thrown: { id: 'K3', to: '1' } },
  });
});

describe('straight on as far as it is free', () => {
  const in4 = played(
    running,
    { do: 'request-move', train: 't7', to: 'B4', overhang: true },
    { do: 'acknowledge', authority: 'a1' },
    { do: 'advance', train: 't7' },
  );

  it('is three blocks at most, for the first that can go on or for the train that the line names', () => {
    const far = { option: { does: { items: [{ input: { do: 'request-move', train: 't7', to: 'e5' } }] } } };
    expect(doingOfAct('grant-far', contextOf(in4), [])).toMatchObject(far);
    expect(grantTo(contextOf(in4), 't7' as TrainId, true)).toMatchObject(far);
  });

  it('ends before what is taken', () => {
    const tagged = played(in4, { do: 'tag', thing: 'B2', why: 'cleaning', by: 'dispatcher' });
    expect(doingOfAct('grant-far', contextOf(tagged), [])).toMatchObject({
      option: { does: { items: [{ input: { to: 'e2' } }] } },
    });
    const next = played(in4, { do: 'tag', thing: 'B5', why: 'cleaning', by: 'dispatcher' });
    expect(doingOfAct('grant-far', contextOf(next), [])).toMatchObject({ kind: 'tell' });
  });

  it('is of a train under way before one that stands, unless the cab of that has called', () => {
    const both = played(
      madeUp,
      { do: 'place-train', train: 't18', edge: 'e17', toward: 'g9', cab: '3' },
      { do: 'start' },
      { do: 'request-move', train: 't7', to: 'B4', overhang: true },
      { do: 'acknowledge', authority: 'a1' },
      { do: 'advance', train: 't7' },
    );
    const trains = (evening: typeof both) => onwards(contextOf(evening), []).map(({ train }) => train);
    expect(trains(both)).toEqual(['t7', 't18']);
    expect(trains(played(both, { do: 'call', cab: '3' }))).toEqual(['t18', 't7']);
  });
});

describe('a way out of a refusal', () => {
  it('brings the order with it where that does not wait by itself', () => {
    const tagged = played(running, { do: 'tag', thing: 'K4', why: 'loose', by: 'dispatcher' });
    const order = { do: 'request-move', train: 't7', to: 'B4', overhang: true };
    const { evening, event } = taken(tagged, order);
    const ways = waysOut({ railroad, state: evening.state }, event, evening.state.at);
    const untag = ways.find(({ says }) => says.startsWith('untag'));
    expect(untag).toMatchObject({
      says: 'untag selector 4, and again',
      does: { items: [{ input: { do: 'untag', thing: 'K4' } }, { input: order }] },
    });
    expect(ways[firstPick(ways)]).not.toMatchObject({ does: { kind: 'leave' } });
  });
});
