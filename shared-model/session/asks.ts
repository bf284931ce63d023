/** Asks: refused requests whose every reason can pass by itself wait, and are looked at again after each event. */
import type { Refusal, RefusalCode } from '../refusal.ts';
import type { InputOf, SessionInput } from './input.ts';
import { judgeMove, withoutAsk } from './orders/move-orders.ts';
import type { AskNow } from './state.ts';
import { type World, withState } from './world.ts';

const PASSING: readonly RefusalCode[] = [
  'block-occupied',
  'block-owned',
  'turnout-locked',
  'crossing-taken',
  'second-train-live',
  'section-live',
];

type Request = InputOf<'request-move'>;

/** Only a move is asked for: limits are given. */
export const isRequest = (input: SessionInput): input is Request => input.do === 'request-move';

/** The own tail in the way does not pass by waiting: the train itself would have to move. */
const passes = ({ code, about }: Refusal, train: string): boolean =>
  PASSING.includes(code) && !(code === 'block-occupied' && about[1] === train);

/** The world after a request was refused: it waits as the train's ask, or drops an earlier one; a "not now" leaves that alone. */
export function keepAsk(world: World, request: Request, reasons: readonly Refusal[], at: number): World {
  if (reasons.some(({ code }) => code === 'not-now')) return world;
  const { train } = request;
  const earlier = world.state.asks.find((ask) => ask.train === train);
  const others = withoutAsk(world, train);
  if (!reasons.every((reason) => passes(reason, train))) return others;
  const cab = world.state.trains[train]?.cab;
  const calledAt = cab == null ? null : (world.state.cabs[cab]?.calledAt ?? null);
  const since = earlier?.since ?? at;
  const ask: AskNow = {
    train,
    to: request.to,
    request,
    since,
    calledAt: earlier?.calledAt ?? calledAt,
    free: false,
    reasons,
  };
  return withState(others, { asks: [...others.state.asks, ask].sort((a, b) => a.since - b.since) });
}

function reasonsNow(world: World, request: Request): readonly Refusal[] {
  const judged = judgeMove(world, request);
  return judged.kind === 'free' ? [] : judged.reasons;
}

/** Looks at every ask again. None is free while the session is not running. */
export function recheckAsks(world: World): World {
  if (world.state.asks.length === 0) return world;
  const asks = world.state.asks.map((ask): AskNow => {
    const reasons = reasonsNow(world, ask.request);
    return { ...ask, reasons, free: reasons.length === 0 && world.state.phase === 'running' };
  });
  return withState(world, { asks });
}
