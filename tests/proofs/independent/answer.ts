/** What a line is answered. */
import type { Reason } from './state.ts';
import type { Guard, ThrowNeeded } from './throws.ts';

export interface Entry {
  at: number;
  do: string;
  outcome: 'done' | 'refused' | 'alarm';
  reasons: Reason[];
  authority?: string;
  throws?: ThrowNeeded[];
  guards?: Guard[];
}

export type Extra = Pick<Entry, 'authority' | 'throws' | 'guards'>;
export interface Done {
  reasons: Reason[];
  extra?: Extra;
}

export const notNow = (...about: string[]): Done => ({ reasons: [{ code: 'not-now', about }] });
export const fine: Done = { reasons: [] };
