/** What the rules answer to one input, before the picture of the blocks is drawn again. */
import type { AuthorityId, BlockId } from '../ids.ts';
import type { AlarmCode, Refusal } from '../refusal.ts';
import type { Throw } from './state.ts';
import type { World } from './world.ts';

/** An alarm about to be raised. */
export interface Raised {
  readonly code: AlarmCode;
  readonly about: readonly string[];
  readonly train: string | null;
}

export interface Done {
  readonly kind: 'done';
  readonly world: World;
  readonly raised: readonly Raised[];
  /** Blocks that what was observed makes disputed. */
  readonly disputed: readonly BlockId[];
  readonly authority?: AuthorityId;
  readonly throws?: readonly Throw[];
  readonly guards?: readonly Throw[];
  readonly advice?: readonly string[];
}

export interface Refused {
  readonly kind: 'refused';
  readonly reasons: readonly Refusal[];
  /** A refused request may wait: the world with its ask. */
  readonly world: World;
}

export type Ruling = Done | Refused;

/** Nothing but a new world. */
export function done(world: World, more: Partial<Omit<Done, 'kind' | 'world'>> = {}): Done {
  return { kind: 'done', world, raised: [], disputed: [], ...more };
}

/** One report after another: the second looks at the world that the first left. */
export function afterwards(first: Done, next: (world: World) => Done): Done {
  const second = next(first.world);
  return {
    ...second,
    raised: [...first.raised, ...second.raised],
    disputed: [...first.disputed, ...second.disputed],
  };
}
