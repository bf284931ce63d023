/** The shortest lines: what may be left out, and that nothing is guessed and nothing false is noted by it. */
import { describe, expect, it } from 'vitest';
import { readTyped } from '../../../renderer/desk/entry-line/read-typed.ts';
import type { Evening } from '../../../shared-model/session/evening.ts';
import { contextOf, madeUp, played, running } from './demo-evening.ts';

/** The items that Enter would send; the number of things to choose from, or what is expected, where it is not one. */
function sent(line: string, evening: Evening = running) {
  const reading = readTyped(contextOf(evening), line);
  if (reading.kind === 'one' && reading.proposal.act.kind === 'send') return reading.proposal.act.items;
  return reading.kind === 'several'
    ? reading.proposals.length
    : reading.kind === 'expected'
      ? reading.says
      : null;
}
const inputs = (line: string, evening: Evening = running) => {
  const items = sent(line, evening);
  return Array.isArray(items) ? items.map(({ input }) => input) : items;
};

describe('a thing alone', () => {
  it('is a turnout or a toggle to its other position, and a knob to off, as an order that notes nothing if it is refused', () => {
    expect(sent('t5')).toEqual([{ input: { do: 'throw-turnout', turnout: 'T5', position: 'reverse' } }]);
    expect(sent('h2')).toEqual([{ input: { do: 'set-toggle', toggle: 'H2', on: true } }]);
    const on = played(running, { do: 'turn-selector', selector: 'K5', position: '1' });
    expect(sent('k5', on)).toEqual([{ input: { do: 'turn-selector', selector: 'K5', position: 'off' } }]);
    expect(sent('k5')).toBe('K 5 is off: say to which cab.');
  });

  it('is what NEXT wants of it, confirmed after the hand, where it wants something', () => {
    const granted = played(running, { do: 'request-move', train: 't7', to: 'B4', overhang: true });
    expect(sent('k4', granted)).toEqual([
      {
        input: { do: 'turn-selector', selector: 'K4', position: '1' },
        otherwise: { do: 'selector-stands-at', selector: 'K4', position: '1' },
      },
    ]);
  });
});

describe('a train that is not on the track', () => {
  it('is placed by its block alone, with its cab; the ends of the block are a list', () => {
    expect(inputs('18 3 f 4 c3', madeUp)).toEqual([
      { do: 'place-train', train: 't18', edge: 'e6', toward: 'g4', cab: '3' },
    ]);
    expect(sent('18 5 c3', madeUp)).toBeGreaterThan(1);
  });

  it('is sent somewhere only with the word to, and one that is on the track is not placed again', () => {
    expect(inputs('18 to 3', madeUp)).toEqual([{ do: 'request-move', train: 't18', to: 'B3' }]);
    expect(inputs('7 4')).toEqual([{ do: 'request-move', train: 't7', to: 'B4' }]);
  });
});

describe('yard work', () => {
  it('calls a cut by the next free number, and takes the only one that stands there', () => {
    expect(inputs('7 s 600 3')).toEqual([
      { do: 'set-out', train: 't7', cut: 'cut1', length: 600, edge: 'e6', toward: 'g4' },
    ]);
    const set = played(running, {
      do: 'set-out',
      train: 't7',
      cut: 'cut1',
      length: 600,
      edge: 'e6',
      toward: 'g3',
    });
    expect(inputs('7 s 200 3', set)).toMatchObject([{ cut: 'cut2' }]);
    expect(inputs('7 ta', set)).toEqual([{ do: 'pick-up', train: 't7', cut: 'cut1' }]);
    expect(sent('7 ta')).toBe('No cars stand where No. 7 could take them: say which.');
  });

  it('gives limits back with the block alone', () => {
    expect(inputs('7 done 3')).toEqual([{ do: 'release-limits', train: 't7', edge: 'e6', toward: 'g4' }]);
  });
});

describe('words cut short', () => {
  it('need one letter after the train where it is plain, and two at the beginning of a line', () => {
    expect(inputs('7 l 3,4')).toEqual([{ do: 'grant-limits', train: 't7', blocks: ['B3', 'B4'] }]);
    expect(inputs('7 wi')).toEqual([{ do: 'withdraw', train: 't7' }]);
    // A name that begins so is nearer: West Throat.
    expect(inputs('7 w')).toEqual([{ do: 'request-move', train: 't7', to: 'B2' }]);
    expect(sent('e')).toBe('Expected "is".');
    expect(inputs('en')).toEqual([{ do: 'end-session' }]);
  });

  it('are a list where they are not plain', () => {
    expect(sent('7 sta')).toEqual([{ input: { do: 'stalled', train: 't7' } }]);
    expect(sent('7 st')).toBeGreaterThan(1);
  });

  it('do not lift a train off: that is not taken back', () => {
    expect(inputs('7 off')).toEqual([{ do: 'take-off', train: 't7' }]);
    for (const line of ['7 of', '7 o']) expect(JSON.stringify(sent(line))).not.toContain('take-off');
  });
});

it('measures the phase of the only two supplies without their names', () => {
  expect(inputs('ph 18 18 .4')).toEqual([
    { do: 'phase-measured', a: 'north', b: 'south', voltsA: 18, voltsB: 18, voltsAcross: 0.4 },
  ]);
});
