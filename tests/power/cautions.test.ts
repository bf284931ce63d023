/** Cautions: every step has its own, in the usual words, and the print-out has them all. */
import { expect, test } from 'vitest';
import { CAUTION_STEPS, CAUTIONS, cautionsAt } from '../../shared-model/power/cautions.ts';

test('every step has cautions, and every caution is printed', () => {
  for (const step of CAUTION_STEPS) expect(cautionsAt(step)).not.toEqual([]);
  expect(cautionsAt('print')).toEqual(CAUTIONS);
});

test.each([
  'licensed people and local codes',
  'ground-fault protected outlet',
  'Never open a transformer',
  'Never tie the track common to mains earth',
  'prongs of an unplugged one can carry mains voltage',
  'electronic throttle may be destroyed',
  'Unplug all supplies before rewiring; never plug in one alone',
  'up to twice their voltage between rails that a hand or a lighted car bridges',
  'switch off and look',
  'cannot cut power',
  'Do not leave the railroad powered alone',
  'advisory',
])('the words "%s" are among them', (words) => {
  expect(CAUTIONS.map((caution) => caution.says).join(' ')).toContain(words);
});

test('the master switch is named where the railroad says where it is', () => {
  const named = cautionsAt('phase-check', 'by the door').find((caution) => caution.id === 'master-switch');
  expect(named?.says).toContain('(by the door)');
});

test('before a meter touches two supplies the danger of feeding back is told', () => {
  const ids = cautionsAt('phase-check').map((caution) => caution.id);
  expect(ids).toEqual(expect.arrayContaining(['ground-fault', 'never-open', 'back-feed', 'double-voltage']));
});
