import { describe, expect, it } from 'vitest';
import { screenRest } from '../../../renderer/shell/address.ts';
import { screenAt } from '../../../renderer/shell/screens.ts';

describe('the address of a screen', () => {
  it('is its name, and what follows is its own', () => {
    expect(screenAt('#/logbook/abc').name).toBe('Logbook');
    expect(screenRest('#/logbook/a%20b/c')).toEqual(['a b', 'c']);
    expect(screenRest('#/logbook')).toEqual([]);
  });

  it('is the Desk where it is empty or unknown', () => {
    expect(screenAt('').name).toBe('Desk');
    expect(screenAt('#/nowhere').name).toBe('Desk');
    expect(screenAt('#/%').name).toBe('Desk');
  });
});
