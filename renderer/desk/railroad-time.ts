/** Railroad time as it is read off a clock, with its ratio: "6:42 4:1". It stands while the session does. */
import { railroadMinutes } from '../../shared-model/session/orders/desk-orders.ts';
import type { DeskSource } from './desk-source.ts';

/** @returns null while there is no railroad time */
export function railroadTime({ state, seconds }: Pick<DeskSource, 'state' | 'seconds'>): string | null {
  if (state.clock === null) return null;
  const minutes = Math.floor(railroadMinutes(state.clock, seconds));
  return `${Math.floor(minutes / 60)}:${String(minutes % 60).padStart(2, '0')} ${state.clock.ratio}:1`;
}
