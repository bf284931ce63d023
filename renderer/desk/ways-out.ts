/** Ways out of a refusal: two or three things that would be taken instead, each in few words. */
import type { BlockId, EdgeId, SelectorId, ThrottleId, ToggleId, TrainId } from '../../shared-model/ids.ts';
import { facingWords, stopsIn } from '../../shared-model/railroad/where-words.ts';
import type { Refusal, RefusalCode } from '../../shared-model/refusal.ts';
import { DISPATCHER } from '../../shared-model/session/dispatcher.ts';
import { takeBatch } from '../../shared-model/session/evening.ts';
import type { SessionEvent } from '../../shared-model/session/event.ts';
import {
  type InputOf,
  isPlainOrder,
  type PlainOrder,
  type SessionInput,
} from '../../shared-model/session/input.ts';
import { judge } from '../../shared-model/session/judge.ts';
import { caseOf, otherWay, wayInTwo } from '../../shared-model/session/orders/move-orders.ts';
import { called } from '../../shared-model/session/rules/sentences.ts';
import { spokenBlock } from '../../shared-model/session/say.ts';
import type { World } from '../../shared-model/session/world.ts';
import { settleOptions } from './alarm-list.ts';
import { send } from './entry-line/reading.ts';
import { notNowWays } from './not-now-ways.ts';
import { type Option, optionOf, PHASE_CHECK } from './option.ts';

const option = (says: string, ...inputs: readonly SessionInput[]): Option => optionOf(send(says, ...inputs));

/** What mends one reason, whatever was asked. */
function mending(world: World, { code, about }: Refusal, train: TrainId | null): readonly Option[] {
  const [first = '', second = ''] = about;
  const name = called(world, first);
  switch (code) {
    case 'not-now':
      return notNowWays(world, about[0]);
    case 'block-disputed':
      return settleOptions(world, first as BlockId);
    case 'hand-off-needed':
      return train === null
        ? []
        : [
            option(`hand off to ${called(world, second)}`, {
              do: 'hand-off',
              train,
              block: first as BlockId,
              toCab: second as ThrottleId,
            }),
          ];
    case 'section-live':
      return [option(`${name} off`, { do: 'set-toggle', toggle: first as ToggleId, on: false })];
    case 'phase-unknown':
    case 'unphased-gap':
      return [{ says: 'measure the phase', does: { kind: 'go', address: PHASE_CHECK } }];
    case 'out-of-service':
      return [option(`untag ${name}`, { do: 'untag', thing: first, by: DISPATCHER })];
    case 'second-train-live':
      return world.railroad.selectors.has(first as SelectorId)
        ? [option(`${name} to off`, { do: 'turn-selector', selector: first as SelectorId, position: 'off' })]
        : [];
    case 'sweeps-live-position':
      return [
        option(`${called(world, second)} is at zero`, { do: 'handle-at-zero', cab: second as ThrottleId }),
      ];
    default:
      return [];
  }
}

/** What may be overridden, by order (3-session.md). */
const OVERRIDABLE: Partial<Record<PlainOrder['do'], readonly RefusalCode[]>> = {
  'request-move': ['block-disputed', 'train-too-long', 'overload', 'gridlock-ahead'],
  'place-train': ['block-disputed', 'train-too-long', 'overload', 'gridlock-ahead'],
  'turn-selector': ['block-owned', 'sweeps-live-position'],
};

/** Another end of the block that is asked for: the shortest way into it may lead to one that is too short for the train. */
function otherEnds(world: World, request: InputOf<'request-move'>): readonly Option[] {
  const block = request.to as BlockId;
  if (!world.railroad.blocks.has(block)) return [];
  const edges = new Set<EdgeId>(stopsIn(world.railroad, block).map(({ edge }) => edge));
  return [...edges].flatMap((to) => {
    const there = { ...request, to };
    const end = caseOf(world, there)?.legs.at(-1)?.spots.at(-1);
    return end === undefined
      ? []
      : [option(`to ${spokenBlock(world.railroad, block)}, ${facingWords(world.railroad, end)}`, there)];
  });
}

/** Ways to get there all the same: at another end of the block, standing over the gap, another way round, together with the train that would start too. */
function moveWays(
  world: World,
  request: InputOf<'request-move'>,
  reasons: readonly Refusal[],
): readonly Option[] {
  const has = (code: RefusalCode): boolean => reasons.some((reason) => reason.code === code);
  const round = otherWay(world, request.train, request.to);
  const others = reasons.flatMap(({ code, about }) =>
    code === 'second-train-live' ? [about[1] as TrainId] : [],
  );
  return [
    ...(has('train-too-long') ? otherEnds(world, request) : []),
    ...(has('train-too-long') ? [option('over the gap', { ...request, overhang: true })] : []),
    ...(round === null
      ? []
      : [
          option(`by ${round.map((block) => spokenBlock(world.railroad, block)).join(', ')}`, {
            ...request,
            via: round.slice(0, -1) as BlockId[],
          }),
        ]),
    ...(others.length === 0
      ? []
      : [
          option(`together with ${others.map((train) => called(world, train)).join(', ')}`, {
            ...request,
            together: others,
          }),
        ]),
  ];
}

/** How far on the same way it can go now, or on the way that takes two moves. */
function partOfTheWay(world: World, request: InputOf<'request-move'>, at: number): readonly Option[] {
  const moving = caseOf(world, request);
  const blocks =
    moving === null ? wayInTwo(world, request) : moving.legs.slice(moving.held).map(({ block }) => block);
  const to = blocks
    .slice(0, -1)
    .findLast((block) => judge(world, { ...request, to: block }, at).kind === 'done');
  return to === undefined ? [] : [option(`to ${spokenBlock(world.railroad, to)}`, { ...request, to })];
}

/** The world as an evening of its own, to try something on it. */
const asEvening = (world: World) => ({ ...world, initial: world.state, events: [] });

/** What waits where the order itself does not: a train that is too long for the block waits to stand over the gap. */
function waiting(world: World, { input, reasons }: SessionEvent, at: number): readonly Option[] {
  if (input.do !== 'request-move' || !reasons.some(({ code }) => code === 'train-too-long')) return [];
  const over = { ...input, overhang: true };
  const tried = takeBatch(asEvening(world), Math.max(at, world.state.at), [{ input: over }]);
  const waits = !tried.ok && tried.evening.state.asks.some(({ train }) => train === input.train);
  return waits ? [option('wait, over the gap', over)] : [];
}

/** A refused order of the kind that may be overridden, when every reason may. */
function overriding({ input }: SessionEvent, reasons: readonly Refusal[]): readonly Option[] {
  if (!isPlainOrder(input)) return [];
  const overridable = OVERRIDABLE[input.do] ?? [];
  return reasons.every(({ code }) => overridable.includes(code))
    ? [option('override: I have looked', { do: 'override', why: 'the dispatcher has looked', order: input })]
    : [];
}

/** Nothing more is asked: an ask waits by itself, anything else is left. */
const leaving = (world: World, train: TrainId | null): Option => ({
  says: world.state.asks.some((ask) => ask.train === train) ? 'wait' : 'leave it',
  does: { kind: 'leave' },
});

/** Where a knob may stand all the same when the order to turn it was refused: the hand was faster. Not if that is on the record already. */
function standing({ state }: World, { input }: SessionEvent): readonly Option[] {
  switch (input.do) {
    case 'turn-selector': {
      const { selector, position } = input;
      return position === null || state.selectors[selector]?.position === position
        ? []
        : [option(`it stands at ${position} already`, { do: 'selector-stands-at', selector, position })];
    }
    case 'throw-turnout': {
      const { turnout, position } = input;
      return state.turnouts[turnout]?.position === position
        ? []
        : [option(`it stands ${position} already`, { do: 'turnout-stands-at', turnout, position })];
    }
    case 'set-toggle': {
      const { toggle, on } = input;
      return state.toggles[toggle]?.on === on
        ? []
        : [option(`it is ${on ? 'on' : 'off'} already`, { do: 'toggle-stands-at', toggle, on })];
    }
    default:
      return [];
  }
}

const MOST = 3;

/** Orders that are given again once they are mended: a request that waits as an ask is offered anyway. */
const GIVEN_AGAIN: readonly SessionInput['do'][] = [
  'request-move',
  'grant-limits',
  'place-train',
  'change-cab',
];

/** What mends a refusal, and the order again with it, where nothing else is against it. */
function andAgain(world: World, { input }: SessionEvent, mend: Option, at: number): Option {
  const { does } = mend;
  const waits = 'train' in input && world.state.asks.some((ask) => ask.train === input.train);
  if (does.kind !== 'send' || waits || !GIVEN_AGAIN.includes(input.do)) return mend;
  const items = [...does.items, { input }];
  const tried = takeBatch(asEvening(world), Math.max(at, world.state.at), items);
  return tried.ok ? { says: `${mend.says}, and again`, does: { kind: 'send', items } } : mend;
}

/**
 * The ways out of a refusal: waiting (or leaving it) first, then at most two more, all of which would be taken now (of a knob, where it
 * stands all the same first, though that may raise an alarm), or would wait.
 *
 * @param at seconds since the session was opened
 */
export function waysOut(world: World, event: SessionEvent, at: number): readonly Option[] {
  const { input } = event;
  const reasons = event.reasons as readonly Refusal[];
  const train = 'train' in input ? (input.train as TrainId) : null;
  const mendings = reasons.flatMap((reason) => mending(world, reason, train));
  const ways = [
    ...(input.do === 'request-move' ? moveWays(world, input, reasons) : []),
    ...mendings,
    ...(input.do === 'request-move' ? partOfTheWay(world, input, at) : []),
    ...overriding(event, reasons),
  ];
  const taken = ways.filter(
    ({ does }) =>
      does.kind !== 'send' || does.items.every((item) => judge(world, item.input, at).kind === 'done'),
  );
  const again = taken.map((way) => (mendings.includes(way) ? andAgain(world, event, way, at) : way));
  const different = again.filter(
    ({ says }, index) => again.findIndex((other) => other.says === says) === index,
  );
  return [leaving(world, train), ...standing(world, event), ...different, ...waiting(world, event, at)].slice(
    0,
    MOST,
  );
}
