/** What is next: which hand movement of many, when an ask or a question comes before it, and what each act of the Desk sends. */
import { describe, expect, it } from 'vitest';
import { doingOfAct } from '../../../renderer/desk/desk-acts.ts';
import { clearQuestion, nextAct, pendingThrows } from '../../../renderer/desk/next-act.ts';
import type { Doing } from '../../../renderer/desk/option.ts';
import { type PendingThrow, throwKey } from '../../../renderer/desk/pending-throw.ts';
import type { ActName } from '../../../renderer/keys/acts.ts';
import type { Evening } from '../../../shared-model/session/evening.ts';
import { contextOf, madeUp, played, running, taken } from './demo-evening.ts';

const throwsOf = (evening: Evening, later: readonly string[] = []): readonly PendingThrow[] =>
  pendingThrows(contextOf(evening), later);
const words = ({ thrown }: PendingThrow): string => `${thrown.id} ${thrown.to}`;
const next = (evening: Evening) => nextAct(contextOf(evening), throwsOf(evening), []);

/** The inputs that an act sends. */
function sends(act: ActName, evening: Evening, later: readonly string[] = []): readonly object[] {
  const doing = doingOfAct(act, contextOf(evening), later);
  if (doing.kind !== 'do' || doing.option.does.kind !== 'send') throw new Error(JSON.stringify(doing));
  return doing.option.does.items.map(({ input }) => input);
}
const doing = (act: ActName, evening: Evening): Doing => doingOfAct(act, contextOf(evening), []);

const to4 = played(running, { do: 'request-move', train: 't7', to: 'B4', overhang: true });
const read = played(to4, { do: 'acknowledge', authority: 'a1' });
const lined = played(
  read,
  { do: 'turn-selector', selector: 'K4', position: '1' },
  { do: 'turn-selector', selector: 'K3', position: '1' },
);
const in4 = played(lined, { do: 'train-entered', train: 't7', block: 'B4' });

describe('the next throw', () => {
  it('is the one for the block ahead, before the knob under the train that waits for it', () => {
    expect(throwsOf(read).map(words)).toEqual(['K4 1', 'K3 1']);
    expect(throwsOf(read)[1]?.thrown.waitsFor).toEqual(['K4']);
    expect(next(read)).toMatchObject({ kind: 'throw', pending: { cab: '1', train: 't7', for: 'way' } });
  });

  it('is none for a train that is off the rails: nobody turns power on under hands', () => {
    const derailed = played(read, { do: 'derailed', train: 't7' });
    expect(throwsOf(derailed)).toEqual([]);
    const settled = played(derailed, { do: 'rerailed', train: 't7' });
    expect(throwsOf(settled).map(words)).toContain('K4 1');
  });

  it('comes last once it was put off', () => {
    const put = throwsOf(read)
      .filter(({ thrown }) => thrown.id === 'K4')
      .map(({ thrown }) => throwKey(thrown));
    expect(throwsOf(read, put).map(words)).toEqual(['K3 1', 'K4 1']);
  });

  it('is for a running train before one that stands', () => {
    const two = played(
      in4,
      { do: 'request-move', train: 't7', to: 'B5', overhang: true },
      { do: 'grant-limits', train: 't12', blocks: ['B10'] },
    );
    const list = throwsOf(two);
    expect(list[0]).toMatchObject({ train: 't7', running: true });
    expect(list.at(-1)).toMatchObject({ train: 't12' });
  });

  it('is to turn a wrong knob back before anything else', () => {
    const { evening } = taken(lined, { do: 'selector-stands-at', selector: 'K4', position: '2' });
    expect(next(evening)).toMatchObject({ pending: { for: 'turn-back', thrown: { id: 'K4', to: '1' } } });
  });

  it('is, at a change of cab, every knob to off and only then to the new cab', () => {
    const standing = played(
      running,
      { do: 'turn-selector', selector: 'K3', position: '1' },
      { do: 'change-cab', train: 't7', cab: '3' },
    );
    expect(throwsOf(standing).map(words)).toEqual(['K3 off']);
    const off = played(standing, { do: 'turn-selector', selector: 'K3', position: 'off' });
    expect(throwsOf(off).map(words)).toEqual(['K3 3']);
    expect(throwsOf(played(off, { do: 'turn-selector', selector: 'K3', position: '3' }))).toEqual([]);
  });

  it('says whose handles go to zero first where the dial passes them, and the confirm says that they are', () => {
    const across = played(
      in4,
      { do: 'train-stopped', train: 't7' },
      { do: 'annul', authority: 'a1', why: 'another cab' },
      { do: 'change-cab', train: 't7', cab: '3' },
      { do: 'turn-selector', selector: 'K3', position: 'off' },
      { do: 'turn-selector', selector: 'K4', position: 'off' },
    );
    const [first] = throwsOf(across);
    expect(first).toMatchObject({ thrown: { to: '3', waitsFor: [] }, zeroFirst: ['1', '2'] });
    expect(sends('throw-done', across)).toEqual([
      { do: 'handle-at-zero', cab: '1' },
      { do: 'handle-at-zero', cab: '2' },
      { do: 'turn-selector', selector: first?.thrown.id, position: '3' },
    ]);
  });
});

describe('when no throw is ready', () => {
  const asked = taken(in4, { do: 'request-move', train: 't12', to: 'B4', overhang: true }).evening;

  it('the question is whether the block that somebody waits for is clear, once the head is further on', () => {
    const further = played(
      in4,
      { do: 'request-move', train: 't7', to: 'B5', overhang: true },
      { do: 'acknowledge', authority: 'a1' },
      { do: 'advance', train: 't7' },
    );
    const waiting = taken(further, { do: 'request-move', train: 't12', to: 'B4', overhang: true }).evening;
    const ready = { ...waiting, state: { ...waiting.state } };
    expect(nextAct(contextOf(ready), [], [])).toEqual({
      kind: 'clear',
      train: 't7',
      block: 'B4',
      waiting: 't12',
    });
  });

  it('nothing is asked of a train whose head is in that block', () => {
    expect(clearQuestion(asked.state, throwsOf(asked))).toBeNull();
  });

  it('an ask that has become free comes before the question', () => {
    const free = played(asked, { do: 'take-off', train: 't7' });
    expect(nextAct(contextOf(free), [], [])).toMatchObject({
      kind: 'ask',
      ask: { train: 't12', free: true },
    });
    expect(sends('grant-ask', free)).toEqual([
      { do: 'request-move', train: 't12', to: 'B4', overhang: true },
    ]);
  });

  it('nothing is next while all is stopped', () => {
    const stopped = played(read, { do: 'stop-all', why: 'called', kind: 'emergency' });
    expect(throwsOf(stopped)).toEqual([]);
  });
});

describe('the acts', () => {
  it('confirm the next throw, or all throws of its cab that wait for nothing', () => {
    expect(sends('throw-done', read)).toEqual([{ do: 'turn-selector', selector: 'K4', position: '1' }]);
    const far = played(running, { do: 'request-move', train: 't7', to: 'B5', overhang: true });
    expect(
      sends('cab-throws-done', far).map((one) =>
        'selector' in one ? one.selector : 'turnout' in one ? one.turnout : '',
      ),
    ).toEqual(['K4', 'K5', 'T8']);
  });

  it('say that the next block is entered, for the train of a cab', () => {
    expect(sends('advance-1', lined)).toEqual([{ do: 'advance', train: 't7' }]);
    expect(doing('advance-2', lined)).toMatchObject({
      kind: 'tell',
      says: 'No train of Cab 2 has an authority.',
    });
    expect(doing('advance-6', lined)).toMatchObject({
      kind: 'tell',
      says: 'There is no such cab on this railroad.',
    });
  });

  it('offer the trains of a cab that has two on their way, and never choose', () => {
    const both = played(
      madeUp,
      { do: 'place-train', train: 't24', edge: 'e17', toward: 'g9', cab: '1' },
      { do: 'start' },
      { do: 'request-move', train: 't7', to: 'B4', overhang: true, together: ['t24'] },
      { do: 'request-move', train: 't24', to: 'B9', together: ['t7'] },
    );
    const offered = doing('advance-1', both);
    expect(offered).toMatchObject({ kind: 'choose', says: 'Cab 1 has more than one train on its way:' });
    expect(offered.kind === 'choose' ? offered.options.map(({ says }) => says) : []).toEqual([
      'advance No. 7',
      'advance No. 24',
    ]);
  });

  it('read back, call, clear, take back, see an alarm', () => {
    expect(sends('read-back', to4)).toEqual([{ do: 'acknowledge', authority: 'a1' }]);
    expect(doing('read-back', running)).toMatchObject({ says: 'Nothing waits to be read back.' });
    expect(sends('call-2', running)).toEqual([{ do: 'call', cab: '2' }]);
    expect(doing('clear', running)).toMatchObject({ says: 'Nobody was asked whether a block is clear.' });
    expect(sends('retract', in4)).toEqual([
      { do: 'retract', entry: in4.state.entries, why: 'typed by mistake' },
    ]);
    const wrong = taken(running, { do: 'train-entered', train: 't12', block: 'B9' }).evening;
    expect(sends('alarm-seen', wrong)).toEqual([{ do: 'alarm-seen', alarm: wrong.state.entries }]);
    expect(doing('alarm-seen', running)).toMatchObject({ says: 'No alarm is unseen.' });
  });

  it('never take back what was taken back already', () => {
    const back = played(in4, { do: 'retract', entry: in4.state.entries, why: 'wrong' });
    expect(sends('retract', back)).toEqual([
      { do: 'retract', entry: lined.state.entries, why: 'typed by mistake' },
    ]);
  });
});
