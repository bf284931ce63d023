/** Where a Desk gets its evening from and where its inputs go: the live evening, a fork of it, or a replay that takes none. */
import type { Railroad } from '../../shared-model/railroad/railroad.ts';
import type { BatchItem } from '../../shared-model/session/batch.ts';
import type { SessionEvent } from '../../shared-model/session/event.ts';
import type { SessionState } from '../../shared-model/session/state.ts';

export interface Sent {
  readonly events: readonly SessionEvent[];
  /** The refusal that stopped the batch. */
  readonly refused: SessionEvent | null;
  /** What went wrong otherwise: an unknown name, a host that does not answer. */
  readonly problem: string | null;
}

export interface DeskSource {
  readonly kind: 'live' | 'rehearsal';
  readonly railroad: Railroad;
  readonly state: SessionState;
  /** The newest events, oldest first. */
  readonly recent: readonly SessionEvent[];
  /** Seconds since the session was opened, now. */
  readonly seconds: number;
  /** RFC 3339; second 0 of the session. */
  readonly openedAt: string;
  readonly resumed: boolean;
  readonly send: (items: readonly BatchItem[]) => Promise<Sent>;
}

/** The clock time of a second of the session, as hours and minutes. */
export function clockTime(openedAt: string, seconds: number): string {
  const moment = new Date(Date.parse(openedAt) + seconds * 1000);
  return `${moment.getHours()}:${String(moment.getMinutes()).padStart(2, '0')}`;
}

/** A stretch of time in minutes and seconds. */
export function stretch(seconds: number): string {
  const whole = Math.max(0, Math.floor(seconds));
  return `${Math.floor(whole / 60)}:${String(whole % 60).padStart(2, '0')}`;
}
