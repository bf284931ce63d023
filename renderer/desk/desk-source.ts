/** Where a Desk gets its evening from and where its inputs go: the live evening, a fork of it, or a replay that takes none. */
import type { Railroad } from '../../shared-model/railroad/railroad.ts';
import type { BatchItem } from '../../shared-model/session/batch.ts';
import type { SessionEvent } from '../../shared-model/session/event.ts';
import type { SessionState } from '../../shared-model/session/state.ts';
import type { PlanNow } from '../carrying/carried-plan.ts';

export interface Sent {
  readonly events: readonly SessionEvent[];
  /** The refusal that stopped the batch. */
  readonly refused: SessionEvent | null;
  /** What went wrong otherwise: an unknown name, a host that does not answer. */
  readonly problem: string | null;
}

/** An evening at a moment. */
export interface DeskMoment {
  readonly railroad: Railroad;
  readonly state: SessionState;
  /** The newest events, oldest first. */
  readonly recent: readonly SessionEvent[];
  /** The plan that is carried out in it; none in a rehearsal or a replay. */
  readonly plan?: PlanNow | null;
}

/** What is done with the plan as a whole. */
export type PlanAct = 'aside' | 'on' | 'again';

export interface DeskSource extends DeskMoment {
  readonly kind: 'live' | 'rehearsal' | 'replay';
  /** Seconds since the session was opened, now. */
  readonly seconds: number;
  /** RFC 3339; second 0 of the session. */
  readonly openedAt: string;
  readonly resumed: boolean;
  /** The word that this evening goes on where it was, until something is done; null when there is no need of it. */
  readonly notice?: string | null;
  /** The word was read. */
  readonly noticeSeen?: () => void;
  /** A plan that was put aside, by its name. */
  readonly planAside?: string | null;
  /** Puts the plan aside, takes it up again, or goes to where it is planned again. */
  readonly doPlan?: (does: PlanAct) => void;
  /** The evening as it is at this very moment, after all that was sent and answered. */
  readonly latest: () => DeskMoment;
  /** A replay takes nothing: it has a problem with everything. */
  readonly send: (items: readonly BatchItem[]) => Promise<Sent>;
}

const two = (value: number): string => String(value).padStart(2, '0');

/** The clock time of a second of the session, as hours and minutes. */
export function clockTime(openedAt: string, seconds: number): string {
  const moment = new Date(Date.parse(openedAt) + seconds * 1000);
  return `${moment.getHours()}:${two(moment.getMinutes())}`;
}

/** The same with its seconds, for the status line. */
export function clockSeconds(openedAt: string, seconds: number): string {
  const moment = new Date(Date.parse(openedAt) + seconds * 1000);
  return `${two(moment.getHours())}:${two(moment.getMinutes())}:${two(moment.getSeconds())}`;
}

/** A stretch of time in minutes and seconds. */
export function stretch(seconds: number): string {
  const whole = Math.max(0, Math.floor(seconds));
  return `${Math.floor(whole / 60)}:${two(whole % 60)}`;
}
