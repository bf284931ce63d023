/** The state of an evening as the command line tells it: who owns what, how everything stands, what waits and what is wrong. */
import type { Railroad } from '../railroad/railroad.ts';
import { locksOn } from './facts/locks.ts';
import type { AlarmNow, AskNow, AuthorityNow, BlockNow, SessionState, TurnoutNow } from './state.ts';

export interface StateAnswer {
  readonly blocks: Readonly<Record<string, Pick<BlockNow, 'state' | 'cab' | 'train'>>>;
  readonly turnouts: Readonly<Record<string, Pick<TurnoutNow, 'position'> & { readonly locked: boolean }>>;
  readonly selectors: Readonly<Record<string, string>>;
  readonly toggles: Readonly<Record<string, boolean>>;
  /** Those placed, blocks head first. */
  readonly trains: Readonly<
    Record<string, { readonly blocks: readonly string[]; readonly cab: string | null }>
  >;
  readonly authorities: Readonly<Record<string, Pick<AuthorityNow, 'train' | 'state' | 'blocks'>>>;
  /** Those standing. */
  readonly alarms: readonly Pick<AlarmNow, 'code' | 'about'>[];
  readonly asks: readonly Pick<AskNow, 'train' | 'to' | 'free'>[];
}

function mapped<Now, Answer>(
  records: Readonly<Record<string, Now>>,
  answer: (now: Now, id: string) => Answer,
): Record<string, Answer> {
  return Object.fromEntries(Object.entries(records).map(([id, now]) => [id, answer(now, id)]));
}

/** What holds in an evening, in the shape that `rehearse` prints. */
export function stateAnswer(railroad: Railroad, state: SessionState): StateAnswer {
  const locked = new Set(
    [...railroad.nodes.keys()].filter(
      (node) => node in state.turnouts && locksOn({ railroad, state }, node).length > 0,
    ),
  ) as ReadonlySet<string>;
  const placed = Object.fromEntries(Object.entries(state.trains).filter(([, { placed }]) => placed));
  return {
    blocks: mapped(state.blocks, ({ state: name, cab, train }) => ({ state: name, cab, train })),
    turnouts: mapped(state.turnouts, ({ position }, id) => ({ position, locked: locked.has(id) })),
    selectors: mapped(state.selectors, ({ position }) => position),
    toggles: mapped(state.toggles, ({ on }) => on),
    trains: mapped(placed, ({ blocks, cab }) => ({ blocks, cab })),
    authorities: mapped(state.authorities, ({ train, state: name, blocks }) => ({
      train,
      state: name,
      blocks,
    })),
    alarms: state.alarms.map(({ code, about }) => ({ code, about })),
    asks: state.asks.map(({ train, to, free }) => ({ train, to, free })),
  };
}
