/** What a typed line may mean: one thing to do, several of which one is chosen, or not yet a line. */
import type { TrainId } from '../../../shared-model/ids.ts';
import type { Railroad } from '../../../shared-model/railroad/railroad.ts';
import type { BatchItem } from '../../../shared-model/session/batch.ts';
import type { SessionEvent } from '../../../shared-model/session/event.ts';
import type { SessionInput } from '../../../shared-model/session/input.ts';
import type { SessionState } from '../../../shared-model/session/state.ts';
import type { LookAhead } from '../../../shared-model/session/world.ts';
import type { PlanNow } from '../../carrying/carried-plan.ts';
import type { PlanAct } from '../desk-source.ts';

/** What the readers of lines look at. */
export interface LineContext {
  readonly railroad: Railroad;
  readonly state: SessionState;
  /** The newest events, oldest first. */
  readonly recent: readonly SessionEvent[];
  /** What tells whether an order would lead into gridlock; without it nothing does. */
  readonly lookAhead?: LookAhead | undefined;
  /** The plan that is carried out. */
  readonly plan?: PlanNow | null | undefined;
}

export type LineAct =
  /** Something to send, whole or not at all. */
  | { readonly kind: 'send'; readonly items: readonly BatchItem[] }
  /** Asks for the reason of something; nothing is sent. Null: of the last refusal, or of what is next. */
  | { readonly kind: 'why'; readonly about: string | null }
  /** Something with the plan that is carried out. */
  | { readonly kind: 'plan'; readonly does: PlanAct }
  /** Picks a train, for what follows. */
  | { readonly kind: 'pick'; readonly train: TrainId };

/** One thing that Enter would do, in words. */
export interface Proposal {
  readonly says: string;
  readonly act: LineAct;
}

export type Reading =
  | { readonly kind: 'empty' }
  | { readonly kind: 'one'; readonly proposal: Proposal }
  /** Several fit equally well: a list, never a guess. */
  | { readonly kind: 'several'; readonly proposals: readonly Proposal[] }
  /** Not a line, or not yet; `says` is what was expected, or why it cannot be. */
  | {
      readonly kind: 'expected';
      readonly says: string;
      /** It begins with no word that is known here: nothing that is added makes it a line. */
      readonly isUnknown?: boolean;
    };

export const send = (says: string, ...inputs: readonly SessionInput[]): Proposal => ({
  says,
  act: { kind: 'send', items: inputs.map((input) => ({ input })) },
});
