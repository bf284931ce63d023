/** Ways out of a refusal: two or three orders that would be taken instead, each in few words. */
import type { BlockId, ThrottleId, ToggleId, TrainId } from '../../shared-model/ids.ts';
import type { Refusal } from '../../shared-model/refusal.ts';
import type { BatchItem } from '../../shared-model/session/batch.ts';
import type { SessionEvent } from '../../shared-model/session/event.ts';
import type { InputOf, PlainOrder, SessionInput } from '../../shared-model/session/input.ts';
import { judge } from '../../shared-model/session/judge.ts';
import { otherWay } from '../../shared-model/session/orders/move-orders.ts';
import { called } from '../../shared-model/session/rules/sentences.ts';
import { spokenBlock } from '../../shared-model/session/say.ts';
import type { World } from '../../shared-model/session/world.ts';

export interface WayOut {
  readonly says: string;
  readonly items: readonly BatchItem[];
  /** Another screen where the reason is mended. */
  readonly href?: string;
}

const order = (says: string, ...inputs: readonly SessionInput[]): WayOut => ({
  says,
  items: inputs.map((input) => ({ input })),
});

/** Orders that mend one reason, whatever was asked. */
function mending(world: World, reason: Refusal, train: TrainId | null): readonly WayOut[] {
  const [first = '', second = ''] = reason.about;
  switch (reason.code) {
    case 'block-disputed': {
      const inside = Object.entries(world.state.trains).filter(([, now]) =>
        now.blocks.includes(first as BlockId),
      );
      const mark = spokenBlock(world.railroad, first);
      return [
        ...inside.map(([id, now]) =>
          order(`${mark} is ${now.name}'s`, {
            do: 'settle',
            block: first as BlockId,
            state: 'occupied',
            train: id as TrainId,
          }),
        ),
        order(`${mark} is empty`, { do: 'settle', block: first as BlockId, state: 'open' }),
      ];
    }
    case 'hand-off-needed':
      return train === null
        ? []
        : [
            order(`hand off to ${called(world, second)}`, {
              do: 'hand-off',
              train,
              block: first as BlockId,
              toCab: second as ThrottleId,
            }),
          ];
    case 'section-live':
      return [
        order(`${called(world, first)} off`, { do: 'set-toggle', toggle: first as ToggleId, on: false }),
      ];
    case 'phase-unknown':
    case 'unphased-gap':
      return [{ says: 'measure the phase', items: [], href: '#/power-room' }];
    case 'out-of-service':
      return [
        order(`untag ${called(world, first)}`, {
          do: 'untag',
          thing: first,
          by: world.state.tags.find(({ thing }) => thing === first)?.by ?? 'dispatcher',
        }),
      ];
    case 'second-train-live': {
      const selector = world.railroad.document.selectors.find(({ id }) => id === first);
      return selector === undefined
        ? []
        : [
            order(`${called(world, first)} to off`, {
              do: 'turn-selector',
              selector: selector.id,
              position: 'off',
            }),
          ];
    }
    case 'sweeps-live-position':
      return [order(`${called(world, second)} at zero`, { do: 'handle-at-zero', cab: second as ThrottleId })];
    default:
      return [];
  }
}

const PASSABLE: Partial<Record<PlainOrder['do'], readonly string[]>> = {
  'request-move': ['block-disputed', 'train-too-long', 'overload', 'gridlock-ahead'],
  'place-train': ['block-disputed', 'train-too-long', 'overload', 'gridlock-ahead'],
  'turn-selector': ['block-owned', 'sweeps-live-position'],
};

function requestWays(
  world: World,
  request: InputOf<'request-move'>,
  reasons: readonly Refusal[],
): readonly WayOut[] {
  const ways: WayOut[] = [];
  if (world.state.asks.some(({ train }) => train === request.train)) ways.push(order('wait'));
  if (reasons.some(({ code }) => code === 'train-too-long'))
    ways.push(order('over the gap', { ...request, overhang: true }));
  const round = otherWay(world, request.train, request.to);
  if (round !== null)
    ways.push(
      order(`by ${round.map((block) => spokenBlock(world.railroad, block)).join(', ')}`, {
        ...request,
        via: round.slice(0, -1) as BlockId[],
      }),
    );
  return ways;
}

/** The ways out of a refusal, at most three, those that would be taken now first. */
export function waysOut(world: World, event: SessionEvent, at: number): readonly WayOut[] {
  const { input } = event;
  const reasons = event.reasons as readonly Refusal[];
  const train = 'train' in input && typeof input.train === 'string' ? (input.train as TrainId) : null;
  const own = input.do === 'request-move' ? requestWays(world, input, reasons) : [];
  const mends = reasons.flatMap((reason) => mending(world, reason, train));
  const passable = PASSABLE[input.do as PlainOrder['do']] ?? [];
  const over =
    reasons.every(({ code }) => passable.includes(code)) &&
    !reasons.some(({ code }) => code === 'train-too-long')
      ? [
          order('override: I have looked', {
            do: 'override',
            why: 'the dispatcher has looked',
            order: input as PlainOrder,
          }),
        ]
      : [];
  const taken = ({ items, href }: WayOut): boolean =>
    href !== undefined || items.every(({ input: way }) => judge(world, way, at).kind === 'done');
  return [...own, ...mends, ...over].filter(taken).slice(0, 3);
}
