/** What the hands or the voice do next: a throw, an ask that has become free, the question whether a block is clear, the next order of a plan, or a way on as before; in that order of urgency. */
import type { BlockId, SelectorId, TrainId } from '../../shared-model/ids.ts';
import { feedOf } from '../../shared-model/railroad/feed.ts';
import { authoritiesInForce, type InForce } from '../../shared-model/session/facts/authorities.ts';
import type { AskNow, SessionState } from '../../shared-model/session/state.ts';
import { throwsNeeded } from '../../shared-model/session/throws.ts';
import type { World } from '../../shared-model/session/world.ts';
import type { PlannedOrder } from '../carrying/carried-plan.ts';
import type { LineContext } from './entry-line/reading.ts';
import { cabChangeThrows, guardThrows } from './event-throws.ts';
import { type Onward, onwardKey, onwards } from './onward.ts';
import { type PendingThrow, type ThrowFor, throwKey } from './pending-throw.ts';
import { plannedKey, plannedNext } from './plan-next.ts';
import { withZeroFirst } from './zero-first.ts';

export type NextAct =
  | { readonly kind: 'throw'; readonly pending: PendingThrow }
  | { readonly kind: 'ask'; readonly ask: AskNow }
  | { readonly kind: 'clear'; readonly train: TrainId; readonly block: BlockId; readonly waiting: TrainId }
  | { readonly kind: 'planned'; readonly planned: PlannedOrder }
  | { readonly kind: 'onward'; readonly onward: Onward }
  | { readonly kind: 'nothing' };

function wayThrows(world: World, { authority }: InForce): readonly PendingThrow[] {
  const { train } = authority;
  const now = world.state.trains[train];
  // Nobody turns power on under hands that set a train on the rails.
  if (now?.derailed === true) return [];
  return throwsNeeded(world, authority).map((thrown) => {
    const leg = authority.legs.findIndex(
      ({ block }, index) => index >= authority.at && block === thrown.block,
    );
    return {
      thrown,
      train,
      cab: authority.legs[leg]?.cab ?? now?.cab ?? null,
      for: 'way',
      blocksAhead: Math.max(0, leg - authority.at),
      running: now?.stopped === false,
    };
  });
}

/** Knobs that stand at a throttle that is not the owner's, or feed a second train: turned back to the owner's cab, or off. */
function turnBacks({ railroad, state }: World): readonly PendingThrow[] {
  return state.alarms.flatMap(({ code, about }): readonly PendingThrow[] => {
    const block = about[0] as BlockId;
    const owner = state.blocks[block];
    const selector =
      code === 'wrong-throttle'
        ? (feedOf(railroad, block)?.selector ?? null)
        : code === 'second-train' && railroad.selectors.has(about[0] as SelectorId)
          ? (about[0] as SelectorId)
          : null;
    if (selector === null) return [];
    const to = code === 'wrong-throttle' ? (owner?.cab ?? 'off') : 'off';
    if (state.selectors[selector]?.position === to) return [];
    return [
      {
        thrown: { kind: 'selector', id: selector, to, block, waitsFor: [] },
        train: (owner?.train as TrainId | null | undefined) ?? null,
        cab: owner?.cab ?? null,
        for: 'turn-back',
        blocksAhead: 0,
        running: true,
      },
    ];
  });
}

const FOR_ORDER: readonly ThrowFor[] = ['turn-back', 'change-cab', 'way', 'guard'];

/**
 * Every hand movement that is needed now, the most urgent first: what is put off comes last, then what waits for something; a wrong knob
 * before a way, a running train before one that stands, the block just ahead before the next.
 *
 * @param later keys of the throws that were put off
 */
export function pendingThrows(context: LineContext, later: readonly string[]): readonly PendingThrow[] {
  const { state } = context;
  const running = state.phase === 'running';
  // While it is made up, the hands may turn any knob; when everything is stopped, only to off.
  const anyKnob = running || state.phase === 'making-up';
  const all = [
    ...turnBacks(context),
    ...cabChangeThrows(context),
    ...(running ? authoritiesInForce(state).flatMap((held) => wayThrows(context, held)) : []),
    ...(running ? guardThrows(context) : []),
  ].filter(({ thrown }) => anyKnob || thrown.to === 'off');
  const rank = (pending: PendingThrow): readonly number[] => [
    later.indexOf(throwKey(pending.thrown)),
    pending.thrown.waitsFor.length > 0 ? 1 : 0,
    FOR_ORDER.indexOf(pending.for),
    pending.running ? 0 : 1,
    pending.blocksAhead,
  ];
  const byRank = (one: PendingThrow, other: PendingThrow): number => {
    const [a, b] = [rank(one), rank(other)];
    const differs = a.findIndex((value, index) => value !== b[index]);
    return differs < 0 ? 0 : (a[differs] ?? 0) - (b[differs] ?? 0);
  };
  return all
    .filter(({ thrown }, index) => all.findIndex((other) => other.thrown.id === thrown.id) === index)
    .map((pending) => withZeroFirst(context, pending))
    .toSorted(byRank);
}

/** Whether a train may have left a block that it is in by the reports: its head is further on. */
function mayBeClear(state: SessionState, train: string | undefined, block: string | undefined): boolean {
  const blocks = state.trains[train as TrainId]?.blocks ?? [];
  return blocks.length > 1 && blocks[0] !== block && blocks.includes(block as BlockId);
}

/** Somebody waits for a block that the train in it may have left: an ask, or a throw that waits for the tail. */
export function clearQuestion(state: SessionState, pending: readonly PendingThrow[]): NextAct | null {
  const wanted = [
    ...state.asks.flatMap((ask) =>
      ask.reasons
        .filter(({ code }) => code === 'block-occupied')
        .map(({ about: [block, train] }) => ({ block, train, waiting: ask.train })),
    ),
    ...pending.flatMap(({ thrown, train: waiting }) => {
      const [block, train] = thrown.waitsFor;
      return waiting === null ? [] : [{ block, train, waiting }];
    }),
  ];
  const found = wanted.find(({ block, train }) => mayBeClear(state, train, block));
  return found === undefined
    ? null
    : {
        kind: 'clear',
        train: found.train as TrainId,
        block: found.block as BlockId,
        waiting: found.waiting,
      };
}

/**
 * The next act of all; what was put off comes after everything else.
 *
 * @param later keys of what was put off
 */
export function nextAct(
  context: LineContext,
  pending: readonly PendingThrow[],
  later: readonly string[],
): NextAct {
  const { state } = context;
  const ready = pending.filter(({ thrown }) => thrown.waitsFor.length === 0);
  const throwOf = (one: PendingThrow | undefined): NextAct | null =>
    one === undefined ? null : { kind: 'throw', pending: one };
  const now = throwOf(ready.find(({ thrown }) => !later.includes(throwKey(thrown))));
  if (now !== null) return now;
  const ask = state.asks.find(({ free }) => free);
  if (ask !== undefined) return { kind: 'ask', ask };
  const question = clearQuestion(state, pending);
  if (question !== null) return question;
  const [planned] = plannedNext(context, later);
  if (planned !== undefined && !later.includes(plannedKey(planned))) return { kind: 'planned', planned };
  const [onward] = onwards(context, later);
  if (onward !== undefined && !later.includes(onwardKey(onward))) return { kind: 'onward', onward };
  const putOff = throwOf(ready[0]);
  if (putOff !== null) return putOff;
  if (planned !== undefined) return { kind: 'planned', planned };
  return onward === undefined ? { kind: 'nothing' } : { kind: 'onward', onward };
}
