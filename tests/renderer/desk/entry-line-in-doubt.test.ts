/** The entry line in doubt: what is ambiguous, what is not a line yet, and what Enter would do. */
import { describe, expect, it } from 'vitest';
import { completionsFor } from '../../../renderer/desk/entry-line/complete.ts';
import { proposalWords } from '../../../renderer/desk/entry-line/try-out.ts';
import type { Evening } from '../../../shared-model/session/evening.ts';
import type { LookAhead, LookAheadAnswer } from '../../../shared-model/session/world.ts';
import { contextOf, madeUp, played, running } from './demo-evening.ts';
import { choicesOf, expectedOf, granted, inputsOf, read } from './read-lines.ts';

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
