/** Answers of the Desk: the ways out of a refusal are all taken, alarms are told by rank and settled, and the figures of the status line. */
import { describe, expect, it } from 'vitest';
import { alarmHead, alarmList, alarmOptions } from '../../../renderer/desk/alarm-list.ts';
import { answerHead, answerWords } from '../../../renderer/desk/answer-words.ts';
import { doingOfAct } from '../../../renderer/desk/desk-acts.ts';
import { explain } from '../../../renderer/desk/explain.ts';
import { eveningOffers } from '../../../renderer/desk/offers/evening-offers.ts';
import { offersFor } from '../../../renderer/desk/offers/offers-for.ts';
import { ENDED, type Option } from '../../../renderer/desk/option.ts';
import { railroadTime } from '../../../renderer/desk/railroad-time.ts';
import { handsLoad, isSilent, oldestReport, phaseWords } from '../../../renderer/desk/status-figures.ts';
import { stripTrain } from '../../../renderer/desk/strip-words.ts';
import { waysOut } from '../../../renderer/desk/ways-out.ts';
import type { TrainId } from '../../../shared-model/ids.ts';
import { type Evening, problemWith, take, takeBatch } from '../../../shared-model/session/evening.ts';
import { contextOf, input, madeUp, played, railroad, running, taken } from './demo-evening.ts';

const granted = played(
  running,
  { do: 'request-move', train: 't7', to: 'B4', overhang: true },
  { do: 'acknowledge', authority: 'a1' },
);
const says = (options: readonly Option[]): readonly string[] => options.map((option) => option.says);

/** The ways out of a refused order. */
function waysOf(
  evening: Evening,
  order: object,
): { readonly after: Evening; readonly ways: readonly Option[] } {
  const { evening: after, event } = taken(evening, order);
  expect(event.outcome).toBe('refused');
  return { after, ways: waysOut({ railroad, state: after.state }, event, after.state.at) };
}

describe('the ways out of a refusal', () => {
  it('are to wait first, where it waits; then a part of the way, or another way', () => {
    const { ways } = waysOf(granted, { do: 'request-move', train: 't12', to: 'B4', overhang: true });
    expect(says(ways)[0]).toBe('wait');
  });

  it('are to stand over the gap, or an override, where the train is too long', () => {
    const { ways } = waysOf(running, { do: 'request-move', train: 't7', to: 'B8' });
    expect(says(ways)).toEqual(expect.arrayContaining(['leave it', 'over the gap']));
    expect(ways.length).toBeLessThanOrEqual(3);
  });

  it('are another end of the block, where the shortest way into it leads to one too short for the train', () => {
    // Short of the yard's gap block 5 has 760 mm, straight on 3600 mm; No. 7 is 1400 mm long.
    const { after, ways } = waysOf(running, { do: 'request-move', train: 't7', to: 'B5' });
    expect(says(ways)[1]).toBe('to 5, facing 1');
    const does = ways[1]?.does;
    if (does?.kind !== 'send') throw new Error('nothing is sent');
    const sent = takeBatch(after, after.state.at + 1, does.items);
    expect(sent.ok && Object.values(sent.evening.state.authorities)[0]?.legs.at(-1)?.spots.at(-1)).toEqual({
      edge: 'e11',
      toward: 'g1',
    });
  });

  it('are to take the tag off, where something is out of service', () => {
    const tagged = played(running, { do: 'tag', thing: 'K4', why: 'loose knob', by: 'Kim' });
    const { ways } = waysOf(tagged, { do: 'turn-selector', selector: 'K4', position: '1' });
    expect(says(ways)).toContain('untag selector 4');
    const { event } = taken(tagged, { do: 'turn-selector', selector: 'K4', position: '1' });
    expect(answerWords(contextOf(tagged), { kind: 'refused', event })).toBe(
      'selector 4 is out of service: loose knob, says Kim.',
    );
  });

  it('are to wait to stand over the gap, where the train is too long and another one is in its way', () => {
    const { after, ways } = waysOf(granted, { do: 'request-move', train: 't12', to: 'B4' });
    expect(says(ways)).toEqual(['leave it', 'wait, over the gap']);
    const does = ways[1]?.does;
    if (does?.kind !== 'send') throw new Error('nothing is sent');
    const { evening } = takeBatch(after, after.state.at + 1, does.items);
    expect(evening.state.asks.map(({ train }) => train)).toEqual(['t12']);
  });

  it('are the first of two moves, where a turnout would be needed both ways', () => {
    const { after, ways } = waysOf(running, { do: 'request-move', train: 't7', to: 'quarry' });
    expect(after.events.at(-1)?.reasons[0]?.says).toMatch(/ask for two moves/);
    expect(says(ways)).toEqual(['leave it', expect.stringMatching(/^to \d+$/)]);
  });

  it.each([
    [madeUp, { train: 't7', to: 'B4' }, /^The evening is still being made up/, 'start the evening'],
    [running, { train: 't18', to: 'B4' }, /^No\. 18 is not on the track: say where/, 'say where it stands'],
    [
      played(running, { do: 'assign-cab', cab: '1', person: null }),
      { train: 't7', to: 'B4' },
      /^Nobody has Cab 1\.$/,
      'somebody has it',
    ],
    [
      played(running, { do: 'derailed', train: 't7' }),
      { train: 't7', to: 'B4' },
      /^No\. 7 is off the rails: say first that it is rerailed\.$/,
      'rerailed',
    ],
  ] as const)(
    'of what is not ready are to make it ready, and the sentence says what it is',
    (evening, move, sentence, way) => {
      const { after, ways } = waysOf(evening, { do: 'request-move', ...move });
      expect(after.events.at(-1)?.reasons.map(({ says: words }) => words)).toEqual([
        expect.stringMatching(sentence),
      ]);
      expect(says(ways).join()).toContain(way);
    },
  );

  it('are to say that a knob stands there all the same, where the hand was faster than the line', () => {
    const { after, ways } = waysOf(granted, { do: 'turn-selector', selector: 'K4', position: '2' });
    expect(says(ways).slice(0, 2)).toEqual(['leave it', 'it stands at 2 already']);
    const noted = played(after, { do: 'selector-stands-at', selector: 'K4', position: '2' });
    expect(noted.state.alarms.map(({ code }) => code)).toEqual(['wrong-throttle']);
    const refused = after.events.at(-1);
    if (refused === undefined) throw new Error('nothing was refused');
    const left = waysOut({ railroad, state: noted.state }, refused, noted.state.at);
    expect(says(left).join()).not.toContain('already');
  });

  it('would all be taken now', () => {
    const cases: readonly (readonly [Evening, object])[] = [
      [granted, { do: 'request-move', train: 't12', to: 'B4', overhang: true }],
      [running, { do: 'request-move', train: 't7', to: 'B8' }],
      [granted, { do: 'turn-selector', selector: 'K4', position: '2' }],
      [running, { do: 'request-move', train: 't7', to: 'B13' }],
    ];
    for (const [evening, order] of cases) {
      const { after, ways } = waysOf(evening, order);
      for (const { says: words, does } of ways)
        if (does.kind === 'send') {
          const tried = takeBatch(after, after.state.at + 1, does.items);
          expect(tried.ok, words).toBe(true);
        }
    }
  });
});

describe('a refusal', () => {
  it('has the number of its train in the head, and its reasons in few words', () => {
    const { evening, event } = taken(granted, {
      do: 'request-move',
      train: 't12',
      to: 'mill',
      overhang: true,
    });
    expect(answerHead(contextOf(evening), event)).toBe('REFUSED 12');
    expect(answerWords(contextOf(evening), { kind: 'refused', event })).toMatch(
      /^to Mill: 4 is No\. 7's \(Cab 1\); /,
    );
  });

  it('is explained again when asked, for a train or for the last', () => {
    const { evening, event } = taken(running, { do: 'request-move', train: 't7', to: 'B8' });
    expect(explain(contextOf(evening), null)).toEqual({ kind: 'refused', event });
    expect(explain(contextOf(evening), 't7')).toEqual({ kind: 'refused', event });
    expect(explain(contextOf(evening), 't12')).toEqual({
      kind: 'told',
      says: 'Nothing was refused to No. 12.',
    });
    expect(explain(contextOf(granted), 'B4')).toEqual({ kind: 'told', says: '4 is pledged: No. 7, Cab 1.' });
    expect(explain(contextOf(granted), null)).toEqual({ kind: 'told', says: 'selector 4 is for No. 7.' });
  });

  it('is explained of what is next, where no refusal is remembered', () => {
    const why = (evening: Evening) => explain({ ...contextOf(evening), recent: [] }, null);
    const order = { do: 'request-move', train: 't12', to: 'B4', overhang: true };
    const in4 = played(
      granted,
      { do: 'turn-selector', selector: 'K4', position: '1' },
      { do: 'advance', train: 't7' },
    );
    const free = played(taken(in4, order).evening, { do: 'take-off', train: 't7' });
    expect(why(free)).toEqual({ kind: 'told', says: 'No. 12 asked for it, and it is free now.' });
    const further = played(
      in4,
      { do: 'request-move', train: 't7', to: 'B5', overhang: true },
      { do: 'acknowledge', authority: 'a1' },
      { do: 'advance', train: 't7' },
    );
    expect(why(taken(further, order).evening)).toEqual({
      kind: 'told',
      says: 'No. 12 waits for 4, which No. 7 may have left.',
    });
  });
});

describe('alarms', () => {
  const wrong = taken(running, { do: 'train-entered', train: 't12', block: 'B9' }).evening;

  it('are told in a head for across the room, and settled with one touch', () => {
    const [first] = wrong.state.alarms;
    if (first === undefined) throw new Error('no alarm was raised');
    expect(alarmHead(wrong, first)).toBe('NOT GRANTED 12 in 9');
    expect(says(alarmOptions(wrong, first))).toEqual(["9 is No. 12's", '9 is empty']);
  });

  it('are shown gravest first, and the record that is behind in one line once there are more than ten', () => {
    expect(alarmList(wrong, wrong.state.at).shown.map(({ rank }) => rank)).toEqual(['act', 'book']);
    const [alarm] = wrong.state.alarms;
    if (alarm === undefined) throw new Error('no alarm was raised');
    const many = Array.from({ length: 11 }, (_, index) => ({
      ...alarm,
      code: 'not-adjacent' as const,
      entry: index,
    }));
    const flooded = { ...wrong, state: { ...wrong.state, alarms: [alarm, ...many] } };
    expect(alarmList(flooded, wrong.state.at)).toMatchObject({ shown: [{ rank: 'act' }], behind: 11 });
    expect(alarmList(flooded, wrong.state.at + 601).behind).toBe(0);
  });
});

describe('the figures of the status line', () => {
  it('name the running train that was heard of longest ago', () => {
    expect(oldestReport(granted.state, 100)).toBeNull();
    const moving = played(granted, { do: 'advance', train: 't7' });
    const at = moving.state.at;
    expect(oldestReport(moving.state, at + 48)).toEqual({ train: 't7', name: 'No. 7', seconds: 48 });
    const train = moving.state.trains['t7' as TrainId];
    if (train === undefined) throw new Error('no train');
    expect([isSilent(train, at + 90), isSilent(train, at + 91)]).toEqual([false, true]);
    expect(stripTrain(moving, 't7' as TrainId, train, at + 91).flags).toContain('No. 7 where?');
  });

  it('give the share of the hands that throws took: ten throws of three seconds in five minutes are 10 %', () => {
    const throws = Array.from({ length: 10 }, (_, index) => ({
      entry: index + 1,
      at: 1000 + index,
      input: { do: 'turn-selector' as const, selector: 'K1' as never, position: 'off' as const },
      outcome: 'done' as const,
      reasons: [],
      changes: {},
    }));
    expect(handsLoad(throws, 1100, 3)).toBe(10);
    expect(handsLoad(throws, 1400, 3)).toBe(0);
    expect(handsLoad([], 0, 3)).toBe(0);
  });

  it('say what is known of the phases', () => {
    const timeOf = () => '19:05';
    expect(phaseWords(railroad, running.state, timeOf)).toBe('phase not checked');
    const measured = (voltsAcross: number) =>
      played(running, { do: 'phase-measured', a: 'north', b: 'south', voltsA: 18, voltsB: 18, voltsAcross });
    expect(phaseWords(railroad, measured(0.3).state, timeOf)).toBe('phase N=S 19:05');
    expect(phaseWords(railroad, measured(36).state, timeOf)).toBe('phase N reversed to S 19:05');
    const lapsed = played(measured(0.3), { do: 'supply-replugged', supply: 'north' });
    expect(phaseWords(railroad, lapsed.state, timeOf)).toBe('phase N?S 19:05');
  });
});

describe('what is offered at a touch', () => {
  const things = [
    ...Object.keys(running.state.trains),
    ...Object.keys(running.state.blocks),
    ...Object.keys(running.state.turnouts),
    ...Object.keys(running.state.selectors),
    ...Object.keys(running.state.toggles),
    ...Object.keys(running.state.cabs),
    'north',
  ];

  it.each([
    ['making up', madeUp],
    ['running', granted],
  ])('while %s names nothing that does not exist, and no two alike', (_, evening) => {
    const context = contextOf(evening);
    for (const thing of things)
      for (const { title, options } of [
        ...offersFor(context, thing, 't7' as TrainId).groups,
        ...eveningOffers(context, evening.state.at),
      ]) {
        expect(new Set(says(options)).size, `${thing}, ${title}`).toBe(options.length);
        for (const { says: words, does } of options)
          if (does.kind === 'send')
            for (const { input } of does.items)
              expect(problemWith(railroad, evening.state, input), `${thing}: ${words}`).toBeNull();
      }
  });

  it('is nothing once the evening has ended, and no key does what would be refused', () => {
    const alarmed = played(granted, { do: 'breaker-tripped', supply: 'north' });
    const ended = contextOf(played(alarmed, { do: 'end-session' }));
    const [alarm] = ended.state.alarms;
    if (alarm === undefined) throw new Error('the alarm is gone');
    expect(alarmOptions(contextOf(alarmed), alarm)).not.toEqual([]);
    expect(alarmOptions(ended, alarm)).toEqual([]);
    for (const thing of things) expect(offersFor(ended, thing, 't7' as TrainId).groups, thing).toEqual([]);
    for (const act of ['alarm-seen', 'alarm-mended', 'advance-1', 'throw-done', 'retract'] as const)
      expect(doingOfAct(act, ended, []), act).toEqual({ kind: 'tell', says: ENDED });
  });

  it('changes the ratio of railroad time without a jump, however long nothing was said', () => {
    const timed = played(running, { do: 'set-clock', ratio: 4, minutes: 360 });
    const at = timed.state.at + 90;
    const offered = eveningOffers(contextOf(timed), at).flatMap(({ options }) => options);
    const faster = offered.find(({ says: words }) => words === '12 to 1')?.does;
    if (faster?.kind !== 'send') throw new Error('no ratio is offered');
    const { evening } = take(timed, { at, input: faster.items[0]?.input ?? input({ do: 'start' }) });
    expect(railroadTime({ state: evening.state, seconds: at })).toBe('6:06 12:1');
    expect(railroadTime({ state: evening.state, seconds: at + 60 })).toBe('6:18 12:1');
  });

  it('places a train where it was touched, with each cab and each facing', () => {
    const { groups } = offersFor(contextOf(madeUp), 'B9', 't18' as TrainId);
    expect(groups[0]?.title).toBe('No. 18 stands here');
    expect(says(groups[0]?.options ?? [])).toContain('facing 8, Cab 3');
  });
});
