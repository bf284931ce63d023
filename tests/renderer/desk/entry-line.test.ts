/** The entry line: what each form means on the demo railroad, and that nothing is ever guessed. */
import { describe, expect, it } from 'vitest';
import { preview } from '../../../renderer/desk/entry-line/preview.ts';
import { readLine } from '../../../renderer/desk/entry-line/read-line.ts';
import { demoRailroad } from '../../../shared-model/demo/railroad.ts';
import type { TrainId } from '../../../shared-model/ids.ts';
import { indexRailroad } from '../../../shared-model/railroad/railroad.ts';
import { newEvening, take } from '../../../shared-model/session/evening.ts';
import { type SessionInput, sessionInput } from '../../../shared-model/session/input.ts';

const railroad = indexRailroad(demoRailroad);

function eveningAfter(...inputs: readonly object[]) {
  let evening = newEvening(railroad);
  for (const [at, input] of inputs.entries())
    evening = take(evening, { at, input: sessionInput.parse(input) as SessionInput }).evening;
  return evening;
}

const running = eveningAfter(
  { do: 'open-session' },
  { do: 'assign-cab', cab: '1', person: 'Avery' },
  { do: 'assign-cab', cab: '2', person: 'Blake' },
  { do: 'place-train', train: 't7', edge: 'e6', toward: 'g4', cab: '1' },
  { do: 'place-train', train: 't12', edge: 'e34', toward: 'g14', cab: '2' },
  { do: 'start' },
);
const inputsOf = (line: string) => {
  const meaning = readLine(railroad, running.state, line);
  return meaning.kind === 'batch' ? meaning.items.map(({ input }) => input) : meaning;
};

describe('a line', () => {
  it.each<[string, object]>([
    ['7 to quarry', { do: 'request-move', train: 't7', to: 'quarry' }],
    ['7 to 12 by 4,8', { do: 'request-move', train: 't7', to: 'B12', via: ['B4', 'B8'] }],
    ['7 to 4 over', { do: 'request-move', train: 't7', to: 'B4', overhang: true }],
    ['7 to 10 joining 12', { do: 'request-move', train: 't7', to: 'B10', joining: 't12' }],
    ['7 in 6', { do: 'train-entered', train: 't7', block: 'B6' }],
    ['7 clear 3', { do: 'train-cleared', train: 't7', block: 'B3' }],
    ['7 stopped', { do: 'train-stopped', train: 't7' }],
    ['7 derailed', { do: 'derailed', train: 't7' }],
    ['7 c2', { do: 'change-cab', train: 't7', cab: '2' }],
    ['7 c3 at 9', { do: 'hand-off', train: 't7', block: 'B9', toCab: '3' }],
    ['7 limits yard lead,12', { do: 'grant-limits', train: 't7', blocks: ['B11', 'B12'] }],
    ['7 ends quarry', { do: 'declare', train: 't7', to: 'quarry' }],
    ['k4 2', { do: 'turn-selector', selector: 'K4', position: '2' }],
    ['k4 is 3', { do: 'selector-stands-at', selector: 'K4', position: '3' }],
    ['k4 off', { do: 'turn-selector', selector: 'K4', position: 'off' }],
    ['t5 r', { do: 'throw-turnout', turnout: 'T5', position: 'reverse' }],
    ['h2 off', { do: 'set-toggle', toggle: 'H2', on: false }],
    ['c2 Kim', { do: 'assign-cab', cab: '2', person: 'Kim' }],
    ['c2 nobody', { do: 'assign-cab', cab: '2', person: null }],
    ['tag k6 loose knob', { do: 'tag', thing: 'K6', why: 'loose knob', by: 'dispatcher' }],
    ['untag k6', { do: 'untag', thing: 'K6', by: 'dispatcher' }],
    ['stop child on the track', { do: 'stop-all', why: 'child on the track', kind: 'emergency' }],
    ['trip north', { do: 'breaker-tripped', supply: 'north' }],
    ['reset north', { do: 'breaker-reset', supply: 'north' }],
    [
      'phase north south 18 18 .4',
      { do: 'phase-measured', a: 'north', b: 'south', voltsA: 18, voltsB: 18, voltsAcross: 0.4 },
    ],
    ['new 88 guest 900 2.5', { do: 'add-train', train: 't88', name: 'No. 88 guest', length: 900, amps: 2.5 }],
    ['clock 4 6:30', { do: 'set-clock', ratio: 4, minutes: 390 }],
    ['note quiet so far', { do: 'note', text: 'quiet so far' }],
  ])('"%s" means one order or report', (line, input) => {
    expect(inputsOf(line)).toEqual([input]);
  });

  it('says a throw after the hand: the report of where the knob stands goes with the order, should it be refused', () => {
    const meaning = readLine(railroad, running.state, 'k4 2');
    expect(meaning).toMatchObject({
      kind: 'batch',
      items: [{ otherwise: { do: 'selector-stands-at', selector: 'K4', position: '2' } }],
    });
  });

  it('takes a number for a train first, and for a block where a block is wanted', () => {
    expect(inputsOf('12 in 12')).toEqual([{ do: 'train-entered', train: 't12', block: 'B12' }]);
  });

  it('gives a list where several things fit, never a guess', () => {
    const meaning = readLine(railroad, running.state, '7 to yard b');
    expect(meaning.kind).toBe('batch');
    const several = readLine(railroad, running.state, '7 in yard');
    expect(several.kind === 'several' ? several.list.map(({ id }) => id) : several).toEqual([
      'B11',
      'B12',
      'B14',
    ]);
  });

  it.each(['7', '7 flies', '7 to nowhere', 'xyzzy', 'k4 9', 'phase north south', 'new 88'])(
    '"%s" says what was expected',
    (line) => {
      const meaning = readLine(railroad, running.state, line);
      expect(meaning.kind).toBe('expects');
      expect(meaning.kind === 'expects' ? meaning.says.length : 0).toBeGreaterThan(10);
    },
  );

  it('settles a disputed block that has the number of a train', () => {
    const disputed = eveningAfter(
      { do: 'open-session' },
      { do: 'place-train', train: 't7', edge: 'e6', toward: 'g4' },
      { do: 'train-entered', train: 't7', block: 'B7' },
    );
    const meaning = readLine(railroad, disputed.state, '7 is empty');
    expect(meaning).toMatchObject({ items: [{ input: { do: 'settle', block: 'B7', state: 'open' } }] });
  });
});

describe('while typing', () => {
  const said = (line: string) => {
    const meaning = readLine(railroad, running.state, line);
    if (meaning.kind !== 'batch') throw new Error(`"${line}" is no batch`);
    return preview({ railroad, state: running.state, seconds: 100 }, meaning.items);
  };
  it('tells how many blocks and throws Enter would grant, and keeps nothing of it', () => {
    const before = JSON.stringify(running.state);
    expect(said('7 to 4 over')).toEqual({ refused: false, says: '1 blocks, 2 throws, free' });
    expect(JSON.stringify(running.state)).toBe(before);
  });
  it('tells that Enter would be refused, and why', () => {
    const { refused, says } = said('7 to 8');
    expect(refused).toBe(true);
    expect(says).toContain('does not fit');
  });
  it('names what does not exist', () => {
    expect(
      preview({ railroad, state: running.state, seconds: 100 }, [
        { input: { do: 'take-off', train: 't99' as TrainId } },
      ]).says,
    ).toContain('t99');
  });
});
