/** An evening as a value: what it started from, every event since, and the state that they fold to. */
import type { Railroad } from '../railroad/railroad.ts';
import type { SessionEvent } from './event.ts';
import type { SessionState } from './state.ts';
import type { LookAhead } from './world.ts';

export interface Evening {
  readonly railroad: Railroad;
  /** Before the first event. */
  readonly initial: SessionState;
  readonly state: SessionState;
  readonly events: readonly SessionEvent[];
  readonly lookAhead?: LookAhead | undefined;
}
