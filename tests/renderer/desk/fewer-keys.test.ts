/** What one key says more: the read-back with all its throws, the way on as before, and everything as it is shown. */
import { describe, expect, it } from 'vitest';
import { doingOfAct, grantTo } from '../../../renderer/desk/desk-acts.ts';
import { inParts } from '../../../renderer/desk/in-parts.ts';
import { nextAct, pendingThrows } from '../../../renderer/desk/next-act.ts';
import { onwardKey, onwards } from '../../../renderer/desk/onward.ts';
import { throwKey } from '../../../renderer/desk/pending-throw.ts';
import type { ActName } from '../../../renderer/keys/acts.ts';
import type { TrainId } from '../../../shared-model/ids.ts';
import { MOST_ITEMS } from '../../../shared-model/session/batch.ts';
import { type Evening, newEvening, takeBatch } from '../../../shared-model/session/evening.ts';
import { contextOf, played, railroad, running, taken } from './demo-evening.ts';

function itemsOf(act: ActName, evening: Evening, later: readonly string[] = []) {
  const doing = doingOfAct(act, contextOf(evening), later);
  if (doing.kind !== 'do' || doing.option.does.kind !== 'send') throw new Error(JSON.stringify(doing));
  return doing.option.does.items;
}
const sends = (act: ActName, evening: Evening, later: readonly string[] = []) =>
  itemsOf(act, evening, later).map(({ input }) => input);

describe('read-back right, and all its throws done', () => {
  const granted = played(running, { do: 'request-move', train: 't7', to: 'B4', overhang: true });

  it('sends the read-back, then the throws in their order, those that waited for others too', () => {
    expect(sends('read-back-and-throws', granted)).toEqual([
      { do: 'acknowledge', authority: 'a1' },
      { do: 'turn-selector', selector: 'K4', position: '1' },
      { do: 'turn-selector', selector: 'K3', position: '1' },
    ]);
  });

  it('is taken whole, and leaves nothing to throw for that train', () => {
    const answer = takeBatch(granted, granted.state.at, itemsOf('read-back-and-throws', granted));
    expect(answer.ok && answer.events.map(({ outcome }) => outcome)).toEqual(['done', 'done', 'done']);
    expect(pendingThrows(contextOf(answer.evening), []).filter(({ for: why }) => why === 'way')).toEqual([]);
  });

  it('says so where nothing waits to be read back', () => {
    expect(doingOfAct('read-back-and-throws', contextOf(running), [])).toMatchObject({
      says: 'Nothing waits to be read back.',
    });
  });
});

describe('a saved setting', () => {
  const first = { do: 'apply-setting', setting: railroad.document.settings[0]?.id };

  it('is set alone by one key: the first of them, a display that is left running', () => {
    const alone = played(newEvening(railroad), { do: 'open-session', alone: true });
    expect(sends('apply-setting', alone)).toEqual([first]);
  });

  it('is chosen where there is a crew', () => {
    const doing = doingOfAct('apply-setting', contextOf(running), []);
    expect(doing.kind === 'choose' && doing.options.map(({ says }) => says)).toEqual(
      railroad.document.settings.map(({ name }) => `set: ${name}`),
    );
  });
});

/** A train that went from the far end of one block to that of the next, and came back to the first. */
function secondRound(alone = false): Evening {
  const open = played(
    newEvening(railroad),
    { do: 'open-session', ...(alone ? { alone: true } : {}) },
    { do: 'assign-cab', cab: '1', person: 'Avery' },
    { do: 'assign-cab', cab: '2', person: 'Blake' },
    { do: 'place-train', train: 't12', edge: 'e17', toward: 'g9', cab: '1' },
    { do: 'start' },
  );
  return ['e19', 'e13', 'e15', 'e17', 'e19'].reduce((now, to) => {
    const asked = taken(now, { do: 'request-move', train: 't12', to });
    const id = asked.event.authority ?? '';
    const read = alone ? asked.evening : played(asked.evening, { do: 'acknowledge', authority: id });
    let there = read;
    for (const _ of read.state.authorities[id as never]?.legs.slice(1) ?? [])
      if (
        there.state.trains['t12' as never]?.blocks[0] !==
        read.state.authorities[id as never]?.legs.at(-1)?.block
      )
        there = played(there, { do: 'advance', train: 't12' });
    return there;
  }, open);
}

describe('the way on as before', () => {
  const again = secondRound();
  const way = { do: 'request-move', train: 't12', to: 'e13' };

  it('is where the train was sent from there last time, once it is in its last block', () => {
    expect(onwards(contextOf(again), []).map(({ request }) => request)).toEqual([way]);
  });

  it('is next where nothing is more urgent, and + grants it', () => {
    expect(nextAct(contextOf(again), [], [])).toMatchObject({ kind: 'onward', onward: { request: way } });
    expect(sends('grant-ask', again)).toEqual([way]);
  });

  it('is straight on to the far end of the next block on the first round', () => {
    const in4 = played(
      running,
      { do: 'request-move', train: 't7', to: 'B4', overhang: true },
      { do: 'acknowledge', authority: 'a1' },
      { do: 'advance', train: 't7' },
    );
    expect(onwards(contextOf(in4), []).map(({ request }) => request)).toContainEqual({
      do: 'request-move',
      train: 't7',
      to: 'e11',
    });
  });

  it('is granted to the train that the line names', () => {
    expect(grantTo(contextOf(again), 't12' as TrainId)).toMatchObject({
      kind: 'do',
      option: { does: { items: [{ input: way }] } },
    });
    expect(grantTo(contextOf(again), 't7' as TrainId)).toMatchObject({ kind: 'tell' });
  });

  it('is not offered where it would be refused', () => {
    const tagged = played(again, { do: 'tag', thing: 'B6', why: 'cleaning', by: 'dispatcher' });
    expect(onwards(contextOf(tagged), [])).toEqual([]);
  });

  it('gives way to whatever else there is once it was put off', () => {
    const [onward] = onwards(contextOf(again), []);
    const guard = pendingThrows(contextOf(again), [])[0];
    if (onward === undefined || guard === undefined) throw new Error('no way on, or no guard');
    const keys = [throwKey(guard.thrown), onwardKey(onward)];
    const put = (later: readonly string[]) => doingOfAct('throw-later', contextOf(again), later);
    expect(put([])).toEqual({ kind: 'later', key: keys[0] });
    expect(put(keys.slice(0, 1))).toEqual({ kind: 'later', key: keys[1] });
    expect(nextAct(contextOf(again), [guard], keys)).toMatchObject({ kind: 'throw', pending: guard });
  });

  it('is offered by the key of its cab at a stand, and done at once when one is alone', () => {
    const stands = played(again, { do: 'advance', train: 't12' });
    expect(doingOfAct('advance-1', contextOf(stands), [])).toMatchObject({
      kind: 'choose',
      says: 'On as before?',
      options: [{ says: 'No. 12 on to 6', does: { items: [{ input: way }] } }],
    });
    const alone = secondRound(true);
    const limit = played(alone, { do: 'advance', train: 't12' });
    expect(sends('advance-1', limit)).toEqual([way]);
  });
});

describe('as shown', () => {
  it('is of what is presumed while the evening runs', () => {
    const presumed = Object.values(running.state.selectors).filter(({ presumed: is }) => is).length;
    const selectors = sends('as-shown', running).filter(({ do: verb }) => verb === 'selector-stands-at');
    expect(selectors).toHaveLength(presumed);
  });

  it('is, after a stop, of the trains one by one as they answer the roll call, then of every knob', () => {
    const stopped = played(running, { do: 'stop-all', why: 'tea', kind: 'break' });
    expect(sends('as-shown', stopped)).toEqual([{ do: 'train-at', train: 't7', edge: 'e6', toward: 'g4' }]);
    const one = played(stopped, { do: 'train-at', train: 't7', edge: 'e6', toward: 'g4' });
    expect(sends('as-shown', one)).toMatchObject([{ do: 'train-at', train: 't12' }]);
    const both = played(one, { do: 'train-at', train: 't12', edge: 'e34', toward: 'g14' });
    const knobs = sends('as-shown', both);
    const { selectors, turnouts, toggles } = both.state;
    expect(knobs).toHaveLength([selectors, turnouts, toggles].flatMap((all) => Object.keys(all)).length);
    const looked = played(both, ...knobs);
    expect(doingOfAct('as-shown', contextOf(looked), [])).toMatchObject({
      says: 'Every knob was thrown or looked at.',
    });
  });

  it('goes in parts where there are more knobs than a batch takes; orders never do', () => {
    const report = itemsOf('as-shown', running)[0];
    const order = itemsOf(
      'read-back-and-throws',
      played(running, { do: 'request-move', train: 't7', to: 'B4', overhang: true }),
    )[1];
    if (report === undefined || order === undefined) throw new Error('nothing to send');
    const reports = Array.from({ length: MOST_ITEMS * 2 + 1 }, () => report);
    expect(inParts(reports).map((part) => part.length)).toEqual([MOST_ITEMS, MOST_ITEMS, 1]);
    expect(inParts(reports).flat()).toEqual(reports);
    expect(inParts([...reports, order])).toHaveLength(1);
  });

  it('goes through the trains in the same order, whatever order the state was read in', () => {
    const stopped = played(running, { do: 'stop-all', why: 'tea', kind: 'break' });
    const sorted = Object.fromEntries(Object.entries(stopped.state.trains).toSorted().toReversed());
    const readAnew = { ...stopped, state: { ...stopped.state, trains: sorted as never } };
    expect(sends('as-shown', readAnew)).toEqual(sends('as-shown', stopped));
  });
});
