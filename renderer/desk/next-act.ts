/** What the hands or the voice do next: a throw, an ask that has become free, or the question whether a block is clear. */
import type { BlockId, ThrottleId, TrainId } from '../../shared-model/ids.ts';
import type { SessionEvent } from '../../shared-model/session/event.ts';
import { authoritiesInForce } from '../../shared-model/session/facts/authorities.ts';
import type { AskNow, SessionState, Throw } from '../../shared-model/session/state.ts';
import { throwsNeeded } from '../../shared-model/session/throws.ts';
import type { World } from '../../shared-model/session/world.ts';
import type { DeskSource } from './desk-source.ts';

export interface PendingThrow {
  readonly thrown: Throw;
  readonly train: TrainId;
  readonly cab: ThrottleId | null;
  readonly guard: boolean;
}

export type NextAct =
  | { readonly kind: 'throw'; readonly pending: PendingThrow }
  | { readonly kind: 'ask'; readonly ask: AskNow }
  | { readonly kind: 'clear'; readonly train: TrainId; readonly block: BlockId; readonly waiting: TrainId }
  | { readonly kind: 'nothing' };

/** Whether a hand movement was made, or reported, since an event. */
function isDone(thrown: Throw, later: readonly SessionEvent[]): boolean {
  return later.some(({ input, outcome }) => {
    if (outcome === 'refused') return false;
    if (input.do === 'turn-selector' || input.do === 'selector-stands-at')
      return thrown.kind === 'selector' && input.selector === thrown.id && input.position === thrown.to;
    if (input.do === 'throw-turnout' || input.do === 'turnout-stands-at')
      return thrown.kind === 'turnout' && input.turnout === thrown.id && input.position === thrown.to;
    return false;
  });
}

const trainOf = (event: SessionEvent): TrainId | null =>
  'train' in event.input ? (event.input.train as TrainId) : null;

/** Throws of a change of cab that are not done yet: they stand in its event alone. */
function cabChanges({ state, recent }: Pick<DeskSource, 'state' | 'recent'>): readonly PendingThrow[] {
  return recent.flatMap((event, index) => {
    const train = trainOf(event);
    if (event.input.do !== 'change-cab' || event.outcome === 'refused' || train === null) return [];
    const cab = event.input.cab;
    if (state.trains[train]?.cab !== cab || state.trains[train]?.placed !== true) return [];
    const later = recent.slice(index + 1);
    const left = (event.throws ?? []).filter((thrown) => !isDone(thrown, later));
    const ids = new Set(left.filter(({ to }) => to === 'off').map(({ id }) => id));
    return left.map((thrown) => ({
      thrown: { ...thrown, waitsFor: thrown.to === 'off' ? [] : [...ids] },
      train,
      cab,
      guard: false,
    }));
  });
}

/** Guards beyond the limits of authorities in force that were not turned off yet. */
function guards({ state, recent }: Pick<DeskSource, 'state' | 'recent'>): readonly PendingThrow[] {
  return recent.flatMap((event) => {
    const authority = event.authority === undefined ? undefined : state.authorities[event.authority];
    if (authority === undefined || authority.state === 'fulfilled' || authority.state === 'annulled')
      return [];
    return (event.guards ?? [])
      .filter(({ id, block }) => {
        const position = state.selectors[id as keyof typeof state.selectors]?.position;
        return state.blocks[block]?.state === 'open' && position !== 'off';
      })
      .map((thrown) => ({
        thrown,
        train: authority.train,
        cab: state.trains[authority.train]?.cab ?? null,
        guard: true,
      }));
  });
}

/** Every hand movement that is needed now, in order of urgency: what waits for nothing first, as it was granted. */
export function pendingThrows(
  source: Pick<DeskSource, 'railroad' | 'state' | 'recent'>,
  later: readonly string[],
): readonly PendingThrow[] {
  const { state } = source;
  if (state.phase !== 'running') return cabChanges(source).filter(({ thrown }) => thrown.to === 'off');
  const world: World = source;
  const needed = authoritiesInForce(state).flatMap(({ authority }) =>
    throwsNeeded(world, authority).map((thrown): PendingThrow => {
      const leg = authority.legs.find((other) => other.block === thrown.block);
      const cab = leg?.cab ?? state.trains[authority.train]?.cab ?? null;
      return { thrown, train: authority.train, cab, guard: false };
    }),
  );
  const all = [...cabChanges(source), ...needed, ...guards(source)];
  const rank = ({ thrown, guard }: PendingThrow): number =>
    (later.includes(String(thrown.id)) ? 4 : 0) + (thrown.waitsFor.length > 0 ? 2 : 0) + (guard ? 1 : 0);
  return [...all]
    .filter(({ thrown }, index) => all.findIndex((other) => other.thrown.id === thrown.id) === index)
    .sort((a, b) => rank(a) - rank(b));
}

/** Somebody waits for a block that the train in it may have left: its head is further on. */
export function clearQuestion(state: SessionState): NextAct | null {
  for (const ask of state.asks)
    for (const { code, about } of ask.reasons) {
      const [block, train] = about;
      const blocks = state.trains[train as TrainId]?.blocks ?? [];
      if (
        code === 'block-occupied' &&
        blocks.length > 1 &&
        blocks[0] !== block &&
        blocks.includes(block as BlockId)
      )
        return { kind: 'clear', train: train as TrainId, block: block as BlockId, waiting: ask.train };
    }
  return null;
}

/** The next act of all. */
export function nextAct(source: Pick<DeskSource, 'state'>, pending: readonly PendingThrow[]): NextAct {
  const ready = pending.find(({ thrown }) => thrown.waitsFor.length === 0);
  if (ready !== undefined) return { kind: 'throw', pending: ready };
  const ask = source.state.asks.find(({ free }) => free);
  if (ask !== undefined) return { kind: 'ask', ask };
  const waiting = pending[0];
  return (
    clearQuestion(source.state) ??
    (waiting === undefined ? { kind: 'nothing' } : { kind: 'throw', pending: waiting })
  );
}
