/** The name of a rehearsal that was just begun. */
import { expect, test } from 'vitest';
import { newName } from '../../../renderer/rehearsal/kept-rehearsal.ts';

test('a new rehearsal has a name that no kept one has, so that keeping it takes the place of none', () => {
  expect(newName([])).toBe('Rehearsal 1');
  expect(newName(['Rehearsal 1', 'before tea'])).toBe('Rehearsal 2');
  expect(newName(['Rehearsal 2', 'Rehearsal 3'])).toBe('Rehearsal 1');
});
