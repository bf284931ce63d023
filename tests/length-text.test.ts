/** Lengths as they are typed and read. International inch and foot (1959 agreement): 25.4 mm and 304.8 mm exactly. */
import fc from 'fast-check';
import { expect, test } from 'vitest';
import { lengthText, readLength } from '../shared-model/length-text.ts';

const mm = (text: string, system: 'metric' | 'imperial' = 'metric', train: number | null = null) => {
  const read = readLength(text, system, train);
  return read.ok ? read.mm : read.says;
};

test.each([
  ['2400', 2400],
  ['2.4 m', 2400],
  ['240cm', 2400],
  ['8 ft', 2438.4],
  ['8 ft 4 in', 2540],
  [`8' 4"`, 2540],
  [`8' 4`, 2540],
  ['10 1/2 in', 266.7],
  ['1/2 in', 12.7],
])('metric %s is %d mm', (text, expected) => {
  expect(mm(text)).toBeCloseTo(expected, 3);
});

test.each([
  ['94 1/2', 2400.3],
  ['8', 203.2],
  ['2400 mm', 2400],
])('imperial %s is %d mm: a bare number is inches', (text, expected) => {
  expect(mm(text, 'imperial')).toBeCloseTo(expected, 3);
});

test('a length may be so many trains long, once there is a train', () => {
  expect(mm('2 trains', 'metric', 1400)).toBe(2800);
  expect(mm('1 1/2 trains', 'metric', 1400)).toBe(2100);
  expect(mm('2 trains')).toContain('no train yet');
});

test.each(['', 'long', '12 miles', '0', '-5', '99 km', '20000 m', '4 5'])(
  '%j is refused with what was expected',
  (text) => {
    expect(mm(text)).toContain('expected a length');
  },
);

test('what is written can be read again, to a sixteenth of an inch or a tenth of a millimetre', () => {
  fc.assert(
    fc.property(fc.double({ min: 2, max: 1e6, noNaN: true }), (length) => {
      expect(Math.abs(Number(mm(lengthText(length, 'metric'))) - length)).toBeLessThan(0.06);
      expect(Math.abs(Number(mm(lengthText(length, 'imperial'), 'imperial')) - length)).toBeLessThan(0.8);
    }),
    { seed: 5, numRuns: 200 },
  );
});
