/** The grammar of the entry line: every line of the design's list, what is ambiguous, what is not a line yet, and what Enter would do. */
import { describe, expect, it } from 'vitest';
import { completionsFor } from '../../../renderer/desk/entry-line/complete.ts';
import { readTyped } from '../../../renderer/desk/entry-line/read-typed.ts';
import type { Reading } from '../../../renderer/desk/entry-line/reading.ts';
import { proposalWords } from '../../../renderer/desk/entry-line/try-out.ts';
import type { Evening } from '../../../shared-model/session/evening.ts';
import type { LookAhead, LookAheadAnswer } from '../../../shared-model/session/world.ts';
import { contextOf, madeUp, played, running, taken } from './demo-evening.ts';

const read = (line: string, evening: Evening = running): Reading => readTyped(contextOf(evening), line);

/** The inputs that Enter would send; an error where the line is not one thing to send. */
function inputsOf(line: string, evening: Evening = running): readonly object[] {
  const reading = read(line, evening);
  if (reading.kind !== 'one' || reading.proposal.act.kind !== 'send')
    throw new Error(`"${line}" is ${JSON.stringify(reading)}`);
  return reading.proposal.act.items.map(({ input }) => input);
}

const choicesOf = (line: string, evening: Evening = running): readonly string[] => {
  const reading = read(line, evening);
  return reading.kind === 'several' ? reading.proposals.map(({ says }) => says) : [];
};
const expectedOf = (line: string, evening: Evening = running): string => {
  const reading = read(line, evening);
  return reading.kind === 'expected' ? reading.says : '';
};

const granted = played(running, { do: 'request-move', train: 't7', to: 'B4', overhang: true });
const withCut = played(running, {
  do: 'set-out',
  train: 't7',
  cut: 'cut3',
  length: 600,
  edge: 'e6',
  toward: 'g3',
});

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

describe('what is ambiguous', () => {
  it('is a list, never a guess', () => {
    expect(choicesOf('7 to ha')).toEqual(['No. 7 to 18 Harbor Hold', 'No. 7 to Harbor']);
    expect(choicesOf('7 limits yard,4')).toEqual([
      'limits for No. 7: 11 Yard Lead, 4 East Throat',
      'limits for No. 7: 12 Yard Front, 4 East Throat',
      'limits for No. 7: 14 Yard Back, 4 East Throat',
    ]);
  });

  it('tells the ends of a block apart by what the train faces there', () => {
    expect(choicesOf('18 at 3', madeUp)).toEqual([
      'place No. 18 in 3 Depot Main, facing 2',
      'place No. 18 in 3 Depot Main, facing 4',
    ]);
  });

  it('is decided by a whole mark, then a number, then the beginning of a name', () => {
    expect(inputsOf('7 to 1')).toEqual([{ do: 'request-move', train: 't7', to: 'B1' }]);
    expect(inputsOf('7 to harbor hold')).toEqual([{ do: 'request-move', train: 't7', to: 'B18' }]);
    expect(inputsOf('7 to qry')).toEqual([{ do: 'request-move', train: 't7', to: 'quarry' }]);
  });
});

describe('what is not a line yet', () => {
  it.each([
    ['7 to', 'Expected a block or a place.'],
    ['7 to 99', '"99" does not fit here. Expected a block or a place.'],
    ['7 to 4 by', 'Expected blocks.'],
    ['k4', 'K 4 is off: say to which cab.'],
    ['blorp', '"blorp" is no train, knob, turnout, cab, block or word known here.'],
    ['phase north south 18 18', 'Expected volts across.'],
    ['start now', '"now" does not fit here. The line ends before that.'],
  ])('%s', (line, says) => {
    expect(expectedOf(line)).toBe(says);
  });

  it('is one that has more than is kept, or a number that cannot be: said before it is sent', () => {
    expect(expectedOf(`note ${'lorem ipsum '.repeat(900)}`)).toBe(
      'The text cannot be taken: expected at most 1000 characters. It has 10799. Nothing is lost: mend the line.',
    );
    expect(expectedOf(`c1 ${'x'.repeat(61)}`)).toMatch(
      /^The person cannot be taken: expected a name of at most 60/,
    );
    expect(expectedOf('7 sets cut3 0 in 3')).toMatch(
      /^The length cannot be taken: expected more than 0 mm\. Nothing is lost/,
    );
    expect(expectedOf('clock 6:00 400')).toMatch(/^The ratio cannot be taken: expected 0 to 60 times/);
  });

  it('is nothing at all when it is empty', () => {
    expect(read('   ')).toEqual({ kind: 'empty' });
  });

  it('takes words of the grammar that are cut short, and a destination without "to", but only where nothing plainer fits', () => {
    expect(inputsOf('12 der')).toEqual([{ do: 'derailed', train: 't12' }]);
    expect(inputsOf('tr nor')).toEqual(inputsOf('trip north'));
    expect(inputsOf('7 4')).toEqual(inputsOf('7 to 4'));
    expect(inputsOf('c1 st')).toEqual([{ do: 'assign-cab', cab: '1', person: 'st' }]);
    expect(choicesOf('7 sta').length === 0 || choicesOf('7 sta').length > 1).toBe(true);
    expect(inputsOf('zero')).toEqual(['1', '2', '3'].map((cab) => ({ do: 'handle-at-zero', cab })));
  });

  it('says that a train stands short of a turnout by the edge and the node that it faces', () => {
    expect(inputsOf('12 at e16 facing t3')).toEqual([
      { do: 'train-at', train: 't12', edge: 'e16', toward: 'T3' },
    ]);
  });

  it('is completed by what would fit, nearest first', () => {
    const completed = (line: string) => completionsFor(contextOf(running), line).map((one) => one.line);
    expect(completed('7 to qu')).toEqual(['7 to 13 ', '7 to Quarry ']);
    expect(completed('7 lim')).toEqual(['7 limits ']);
    expect(completed('st')).toEqual(['stop ', 'start ']);
    expect(completed('7 to 3 ')).toEqual(
      ['by', 'over', 'back', 'joining', 'with'].map((word) => `7 to 3 ${word} `),
    );
    expect(completed('')).toEqual([]);
  });
});

describe('what Enter would do', () => {
  const words = (line: string, evening: Evening = running) => {
    const reading = read(line, evening);
    if (reading.kind !== 'one') throw new Error(reading.kind);
    return proposalWords(contextOf(evening), evening.state.at, reading.proposal);
  };

  it('is said of a grant with its size', () => {
    expect(words('7 to 4 over')).toEqual({
      verdict: 'done',
      says: 'No. 7 to 4 East Throat (1 block, 2 knobs, free)',
    });
  });

  it('is said of a refusal with its reason, and whether it would wait', () => {
    expect(words('7 to 8').says).toMatch(/^No\. 7 to 8 Ridge \(would be refused: /);
    const other = played(granted, { do: 'acknowledge', authority: 'a1' });
    expect(words('12 to 4 over', other).says).toMatch(
      /^No\. 12 to 4 East Throat \(would be refused and wait: /,
    );
  });

  it('is said of a throw that would be refused', () => {
    expect(words('k3 2').says).toMatch(/^K 3 at 2 \(would be refused: /);
  });

  it('is said of a report that raises an alarm', () => {
    expect(words('12 in 9')).toMatchObject({ verdict: 'alarm' });
  });

  it('looks ahead as the host does, and says so where it is not decided within its budget', () => {
    const declared = played(running, { do: 'declare', train: 't12', to: 'B3' });
    const withLook = (...verdicts: readonly LookAheadAnswer['verdict'][]) => {
      const left = [...verdicts];
      const lookAhead: LookAhead = () => ({ verdict: left.shift() ?? 'safe', trains: [], blocks: [] });
      const reading = read('7 to 4 over', declared);
      if (reading.kind !== 'one') throw new Error(reading.kind);
      return proposalWords({ ...contextOf(declared), lookAhead }, declared.state.at, reading.proposal);
    };
    expect(withLook('safe')).toMatchObject({
      verdict: 'done',
      says: expect.stringMatching(/2 knobs, free\)$/),
    });
    expect(withLook('gridlock', 'safe')).toMatchObject({
      verdict: 'refused',
      says: expect.stringContaining('would be refused'),
    });
    expect(withLook('undecided')).toMatchObject({
      verdict: 'done',
      says: expect.stringMatching(/free; whether it leads into gridlock is not decided\)$/),
    });
  });

  it('changes nothing', () => {
    const before = JSON.stringify(running.state);
    words('7 to 4 over');
    expect(JSON.stringify(running.state)).toBe(before);
  });
});
