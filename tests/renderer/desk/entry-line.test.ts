/** The grammar of the entry line: every line of the design's list. */
import { describe, expect, it } from 'vitest';
import { madeUp, played, running, taken } from './demo-evening.ts';
import { choicesOf, expectedOf, granted, inputsOf, read, withCut } from './read-lines.ts';

describe('a line about a train', () => {
  it.each([
    ['7 to quarry', { do: 'request-move', train: 't7', to: 'quarry' }],
    ['7 to 12 by 5,6', { do: 'request-move', train: 't7', to: 'B12', via: ['B5', 'B6'] }],
    ['7 to 4 over', { do: 'request-move', train: 't7', to: 'B4', overhang: true }],
    [
      '7 to 4 over by 5 , 6',
      { do: 'request-move', train: 't7', to: 'B4', overhang: true, via: ['B5', 'B6'] },
    ],
    ['7 to 9 with 12', { do: 'request-move', train: 't7', to: 'B9', together: ['t12'] }],
    ['7 to depot main', { do: 'request-move', train: 't7', to: 'B3' }],
    ['No. 7 TO Mill', { do: 'request-move', train: 't7', to: 'mill' }],
    ['7 in 6', { do: 'train-entered', train: 't7', block: 'B6' }],
    ['7 clear of 3', { do: 'train-cleared', train: 't7', block: 'B3' }],
    ['7 at 3', { do: 'train-at', train: 't7', edge: 'e6', toward: 'g4' }],
    ['7 at 3 facing 2', { do: 'train-at', train: 't7', edge: 'e6', toward: 'g3' }],
    ['7 stopped', { do: 'train-stopped', train: 't7' }],
    ['7 stalled', { do: 'stalled', train: 't7' }],
    ['7 derailed', { do: 'derailed', train: 't7' }],
    ['7 rerailed', { do: 'rerailed', train: 't7' }],
    ['7 off', { do: 'take-off', train: 't7' }],
    ['7 advance', { do: 'advance', train: 't7' }],
    ['7 withdraw', { do: 'withdraw', train: 't7' }],
    ['7 limits 3,4', { do: 'grant-limits', train: 't7', blocks: ['B3', 'B4'] }],
    ['7 done limits at 3', { do: 'release-limits', train: 't7', edge: 'e6', toward: 'g4' }],
    [
      '7 sets cut3 600 in 3',
      { do: 'set-out', train: 't7', cut: 'cut3', length: 600, edge: 'e6', toward: 'g4' },
    ],
    ['7 takes 12', { do: 'couple', train: 't7', other: 't12' }],
    ['7 is 1400 3.2', { do: 'make-up', train: 't7', length: 1400, amps: 3.2 }],
    ['7 makes 3ft 2A', { do: 'make-up', train: 't7', length: 914.4000000000001, amps: 2 }],
    ['7 c3 at 9', { do: 'hand-off', train: 't7', block: 'B9', toCab: '3' }],
    ['7 c3', { do: 'change-cab', train: 't7', cab: '3' }],
    ['7 kim', { do: 'change-cab', train: 't7', cab: '3' }],
    ['7 ends quarry', { do: 'declare', train: 't7', to: 'quarry' }],
  ])('%s', (line, input) => {
    expect(inputsOf(line)).toEqual([input]);
  });

  it('takes up and joins a cut by its name', () => {
    expect(inputsOf('7 takes cut3', withCut)).toEqual([{ do: 'pick-up', train: 't7', cut: 'cut3' }]);
    expect(inputsOf('12 to 3 joining cut3', withCut)).toEqual([
      { do: 'request-move', train: 't12', to: 'B3', joining: 'cut3' },
    ]);
  });

  it('means the next block of the authority by "in" and the last of its blocks by "clear"', () => {
    expect(inputsOf('7 in', granted)).toEqual([{ do: 'train-entered', train: 't7', block: 'B4' }]);
    const across = played(granted, { do: 'acknowledge', authority: 'a1' }, { do: 'advance', train: 't7' });
    expect(inputsOf('7 clear', across)).toEqual([{ do: 'train-cleared', train: 't7', block: 'B3' }]);
    expect(expectedOf('7 in')).toBe('No. 7 has no block ahead: say which block it is in.');
    expect(expectedOf('7 clear')).toBe('No. 7 is in one block only: say which block it is clear of.');
  });

  it('takes a wrong report back and says it right by "was in"; without a report it is a correction', () => {
    const reported = played(
      granted,
      { do: 'acknowledge', authority: 'a1' },
      { do: 'train-entered', train: 't7', block: 'B4' },
    );
    expect(inputsOf('7 was in 3', reported)).toEqual([
      { do: 'retract', entry: reported.state.entries, why: 'it was in 3 Depot Main' },
      { do: 'train-entered', train: 't7', block: 'B3' },
    ]);
    expect(inputsOf('7 was in 3')).toEqual([{ do: 'train-at', train: 't7', edge: 'e6', toward: 'g4' }]);
  });

  it('places a train that is not on the track, with its cab and its facing', () => {
    expect(inputsOf('18 at 3 facing 4 with c3', madeUp)).toEqual([
      { do: 'place-train', train: 't18', edge: 'e6', toward: 'g4', cab: '3' },
    ]);
    expect(inputsOf('18 stands in quarry facing 1', madeUp)).toEqual([
      { do: 'place-train', train: 't18', edge: 'e32', toward: 'g12' },
    ]);
  });

  it('changes ends where it stands, and asks for a way with a change of ends in legs', () => {
    expect(inputsOf('7 turns')).toEqual([{ do: 'train-at', train: 't7', edge: 'e6', toward: 'g3' }]);
    expect(inputsOf('7 to 2 back 1')).toEqual([
      { do: 'train-at', train: 't7', edge: 'e6', toward: 'g3' },
      { do: 'request-move', train: 't7', to: 'B2' },
    ]);
  });

  it('picks the train when nothing else is said', () => {
    expect(read('7')).toEqual({
      kind: 'one',
      proposal: {
        says: 'pick No. 7 (+ grants what it asks, or its way on)',
        act: { kind: 'pick', train: 't7' },
      },
    });
  });
});

describe('a line about a thing', () => {
  it.each([
    ['k4 2', { do: 'turn-selector', selector: 'K4', position: '2' }],
    ['k4 off', { do: 'turn-selector', selector: 'K4', position: 'off' }],
    ['k4 is 3', { do: 'selector-stands-at', selector: 'K4', position: '3' }],
    ['t5 r', { do: 'throw-turnout', turnout: 'T5', position: 'reverse' }],
    ['t5 is normal', { do: 'turnout-stands-at', turnout: 'T5', position: 'normal' }],
    ['h2 off', { do: 'set-toggle', toggle: 'H2', on: false }],
    ['h2 is on', { do: 'toggle-stands-at', toggle: 'H2', on: true }],
    ['c2 Kim', { do: 'assign-cab', cab: '2', person: 'Kim' }],
    ['c2 nobody', { do: 'assign-cab', cab: '2', person: null }],
    ['c2 calls', { do: 'call', cab: '2' }],
    ['blake zero', { do: 'handle-at-zero', cab: '2' }],
    ['c2 stop', { do: 'stop-called', cab: '2' }],
    ['5 is empty', { do: 'settle', block: 'B5', state: 'open' }],
    ['7 is empty', { do: 'settle', block: 'B7', state: 'open' }],
    ["5 is 12's", { do: 'settle', block: 'B5', state: 'occupied', train: 't12' }],
  ])('%s', (line, input) => {
    expect(inputsOf(line)).toEqual([input]);
  });

  it('is the order alone, so that it can be asked for before the hand moves: refused, it changes nothing', () => {
    for (const line of ['k4 2', 't5 r', 'h2 off', 'k4 is 2'])
      expect(read(line)).not.toMatchObject({ proposal: { act: { items: [{ otherwise: {} }] } } });
    expect(inputsOf('k4 -')).toEqual([{ do: 'turn-selector', selector: 'K4', position: null }]);
  });
});

describe('a line that begins with a word', () => {
  it.each([
    ['tag k6 loose knob', { do: 'tag', thing: 'K6', why: 'loose knob', by: 'dispatcher' }],
    ['tag t5 point rod bent by Kim', { do: 'tag', thing: 'T5', why: 'point rod bent', by: 'Kim' }],
    ['tag 7 gone home', { do: 'tag', thing: 't7', why: 'gone home', by: 'dispatcher' }],
    ["tag k6 Kim's finger hurts", { do: 'tag', thing: 'K6', why: "Kim's finger hurts", by: 'dispatcher' }],
    ['untag k6', { do: 'untag', thing: 'K6', by: 'dispatcher' }],
    ['stop child on the track', { do: 'stop-all', why: 'child on the track', kind: 'emergency' }],
    ['stop', { do: 'stop-all', why: 'called', kind: 'emergency' }],
    ['break tea, then on', { do: 'stop-all', why: 'tea, then on', kind: 'break' }],
    ['resume', { do: 'resume' }],
    ['start', { do: 'start' }],
    ['end', { do: 'end-session' }],
    ['trip north', { do: 'breaker-tripped', supply: 'north' }],
    ['reset nor', { do: 'breaker-reset', supply: 'north' }],
    ['replug south', { do: 'supply-replugged', supply: 'south' }],
    [
      'phase north south 18 18 .4',
      { do: 'phase-measured', a: 'north', b: 'south', voltsA: 18, voltsB: 18, voltsAcross: 0.4 },
    ],
    ['new 88 guest 900 2.5', { do: 'add-train', train: 't88', name: 'No. 88 guest', length: 900, amps: 2.5 }],
    ['setting all off', { do: 'apply-setting', setting: 'dark' }],
    ['clock 6:42 4:1', { do: 'set-clock', ratio: 4, minutes: 402 }],
    ['clock off', { do: 'set-clock', ratio: 0, minutes: 0 }],
    ['note quiet, so far', { do: 'note', text: 'quiet, so far' }],
    ['retract 3 wrong knob', { do: 'retract', entry: 3, why: 'wrong knob' }],
    ['withdraw 7', { do: 'withdraw', train: 't7' }],
  ])('%s', (line, input) => {
    expect(inputsOf(line)).toEqual([input]);
  });

  it('reads back and annuls what is in force, and says so when nothing is', () => {
    expect(inputsOf('right', granted)).toEqual([{ do: 'acknowledge', authority: 'a1' }]);
    expect(inputsOf('annul 7 derailed', granted)).toEqual([
      { do: 'annul', authority: 'a1', why: 'derailed' },
    ]);
    expect(expectedOf('right')).toBe('Nothing waits to be read back.');
    expect(expectedOf('annul 7')).toBe('No. 7 has no authority.');
  });

  it('lists the grants that wait for a read-back where there are two', () => {
    const two = played(granted, { do: 'grant-limits', train: 't12', blocks: ['B10'] });
    expect(choicesOf('right', two)).toEqual(['No. 7 read back right', 'No. 12 read back right']);
    expect(inputsOf('right 12', two)).toEqual([{ do: 'acknowledge', authority: 'a2' }]);
  });

  it('asks why without sending anything', () => {
    expect(read('why 7')).toMatchObject({ proposal: { act: { kind: 'why', about: 't7' } } });
    expect(read('why')).toMatchObject({ proposal: { act: { kind: 'why', about: null } } });
  });

  it('takes the newest report back when no number is said', () => {
    const noted = played(running, { do: 'train-stopped', train: 't7' });
    expect(inputsOf('retract', noted)).toEqual([
      { do: 'retract', entry: noted.state.entries, why: 'typed by mistake' },
    ]);
  });

  it('overrides the newest refusal with a reason', () => {
    const { evening } = taken(running, { do: 'request-move', train: 't7', to: 'B8' });
    expect(inputsOf('override it may stand across', evening)).toEqual([
      {
        do: 'override',
        why: 'it may stand across',
        order: { do: 'request-move', train: 't7', to: 'B8' },
      },
    ]);
  });

  it('says of every knob that nobody has looked at that it stands as shown', () => {
    const before = played(running, { do: 'selector-stands-at', selector: 'K1', position: 'off' });
    const knobs = inputsOf('as shown', before);
    expect(knobs).toHaveLength(27);
    expect(knobs).not.toContainEqual({ do: 'selector-stands-at', selector: 'K1', position: 'off' });
  });
});
