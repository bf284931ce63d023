/**
 * A crew that carries a kept plan out: a dispatcher who gives each order when it is its turn, one pair of hands, one voice, and
 * engineers who are late. A discrete simulation; whatever is done is judged by the session's own engine.
 */
import type { BlockId, TrainId } from '../../../shared-model/ids.ts';
import { atTheBeginning, goneOn } from '../../../shared-model/planning/carry-out/how-far.ts';
import type { KeptPlan } from '../../../shared-model/planning/carry-out/keep-order.ts';
import { turnsOf } from '../../../shared-model/planning/carry-out/whose-turn.ts';
import type { PlanOptions } from '../../../shared-model/planning/plan/options.ts';
import type { PlanMove } from '../../../shared-model/planning/plan-answer.ts';
import { totalOf } from '../../../shared-model/planning/rehearsal/drag-move.ts';
import type { Situation } from '../../../shared-model/planning/situation.ts';
import type { Railroad } from '../../../shared-model/railroad/railroad.ts';
import { type Evening, take } from '../../../shared-model/session/evening.ts';
import type { SessionEvent } from '../../../shared-model/session/event.ts';
import type { SessionInput } from '../../../shared-model/session/input.ts';
import type { Carried, CrewWishes, Words } from './crew-wishes.ts';
import {
  type Engine,
  ease,
  endedMove,
  HAIR,
  lengthen,
  newEngine,
  newlyCleared,
  nextPlace,
  orderAhead,
  type Piece,
  pieceAhead,
  pieceBehind,
  stopsAhead,
  type WayOn,
} from './engine.ts';
import { type AheadThrow, laterBy } from './hold-back.ts';
import { pairOfHands } from './pair-of-hands.ts';

/** Seconds: plans are given rounded, and compared to no less. */
const A_MOMENT = 0.002;
/** A train stands at least so long; else its next move would read as one with the move before. */
const STAND = 0.01;
const MOST_STEPS = 20_000;

/** Carries a plan out on an evening that stands as the situation says, until nothing more can be done. */
export function carryOut(
  railroad: Railroad,
  situation: Situation,
  kept: KeptPlan,
  begun: Evening,
  options: PlanOptions,
  wishes: CrewWishes,
): Carried {
  let evening = begun;
  let far = goneOn(kept, atTheBeginning(kept), begun.state);
  let now = 0;
  let wasSlow = wishes.pace !== undefined;
  const events: SessionEvent[] = [];
  const moves: PlanMove[] = [];
  const words: Words[] = [];
  const given: number[] = [];
  const clearedAt = new Map<BlockId, number>();
  /** When each move of the plan was begun (the last time, where it was stopped on the way). */
  const startedAt = new Map<number, number>();
  const timesCleared = new Map<string, number>();
  const hands = pairOfHands(railroad, options, clearedAt, wishes.throwsFor ?? (() => options.throwSeconds));
  const hasLeft = ({ train, block, times }: AheadThrow['after'][number]): boolean =>
    (timesCleared.get(`${train} ${block}`) ?? 0) >= times;
  hands.want(
    wishes.throwsAhead.map(({ train, one, at, after }) => ({
      train,
      one,
      rank: at,
      notBefore: at,
      isDue: () => after.every(hasLeft),
    })),
  );
  const engines = situation.trains.map((train) => newEngine(railroad, train));
  const orders = kept.orders.map(({ order }) => order);
  const voice: { speaks: { readonly engine: Engine; readonly till: number } | null } = { speaks: null };

  const say = (input: SessionInput): SessionEvent => {
    const taken = take(evening, { at: begun.state.at + now, input });
    evening = taken.evening;
    events.push(taken.event);
    far = goneOn(kept, far, evening.state);
    return taken.event;
  };
  const mayGive = (at: number): boolean =>
    now >= at - wishes.aheadSeconds - HAIR && (wishes.until === undefined || now < wishes.until);

  const giveOrder = (): boolean => {
    const turns = turnsOf(kept, far, new Set(given));
    const place = orders.findIndex(({ at }, index) => turns[index]?.is === 'next' && mayGive(at));
    const order = orders[place];
    const engine = engines.find(({ id }) => id === order?.train);
    if (order === undefined || engine === undefined) return false;
    given.push(place);
    const { outcome, authority, throws = [] } = say(order.input);
    const granted = authority === undefined ? undefined : evening.state.authorities[authority];
    // What is refused stands in the events for the test to find; its train stays where it is.
    if (outcome === 'done' && authority !== undefined && granted !== undefined) {
      lengthen(railroad, engine, authority, granted, place);
      // What the plan needs first is thrown first.
      const needed = (block: BlockId): number =>
        order.enters.find((stay) => stay.block === block)?.headIn ?? order.at;
      hands.want(throws.map((one) => ({ train: order.train, one, rank: needed(one.block) })));
    }
    return true;
  };

  /** From when on a train may go over the gap into its next piece. */
  const mayEnterFrom = (before: Piece | undefined, next: Piece, ready: number): number => {
    if (before?.block === next.block) return ready;
    const left = clearedAt.get(next.block);
    return Math.max(ready, left === undefined ? 0 : left + options.marginSeconds);
  };
  /** The gaps ahead of a train, or where it stands, with when its way goes on there, as far as anybody can know. */
  const waysOn = (engine: Engine): readonly WayOn[] =>
    stopsAhead(engine, now).map(({ before, next, at }) => ({
      order: next.order,
      mm: next.fromMm,
      at,
      goesOn: mayEnterFrom(before, next, hands.expectedFrom(engine.id, next.block, now)),
    }));
  const nextStop = (engine: Engine): WayOn | undefined =>
    waysOn(engine).find(({ at, goesOn }) => engine.doing !== 'runs' || goesOn > at + A_MOMENT);
  /** Whoever would have to stop for a moment runs a little slower, as soon as that is known. */
  const easeOff = (): void => {
    for (const engine of engines)
      if (engine.doing === 'runs' && ease(engine, now, waysOn(engine))) wasSlow = true;
  };
  /** How late a train is, as far as anybody can know by now. */
  const latenessOf = (train: TrainId): number => {
    const engine = engines.find(({ id }) => id === train);
    const last = engine === undefined ? -1 : orderAhead(engine);
    if (last < 0) return 0;
    const started = startedAt.get(orders[last]?.move ?? -1);
    return Math.max(0, (started ?? now) - wishes.plannedStart(last));
  };
  const laterFor = (place: number): number =>
    laterBy({ kept, far, throwsAhead: wishes.throwsAhead, options }, place, latenessOf);
  /** From when on the words before a start may begin, so that the way is free when the train departs; also before it has stopped. */
  const wordsFrom = (engine: Engine): number => {
    const stop = engine.isTold || engine.doing === 'starts' ? undefined : nextStop(engine);
    if (stop === undefined) return Number.POSITIVE_INFINITY;
    const place = stop.order;
    const { talkSeconds, startSeconds } = options;
    return (
      Math.max(stop.at, wishes.plannedStart(place) + laterFor(place), stop.goesOn - startSeconds) -
      talkSeconds
    );
  };
  const start = (engine: Engine, from: number): void => {
    const start = Math.max(from + wishes.lateBy(engine.id), engine.since + STAND);
    engine.isTold = false;
    engine.doing = 'starts';
    engine.pace = wishes.pace?.(engine.id) ?? 1;
    engine.speed = engine.planned * engine.pace;
    engine.departs = start + options.startSeconds;
    engine.move = { start, edges: [], blocks: [] };
    startedAt.set(orders[orderAhead(engine)]?.move ?? -1, start);
  };
  const speak = (): boolean => {
    if (voice.speaks !== null) {
      if (voice.speaks.till > now + HAIR) return false;
      const { engine } = voice.speaks;
      voice.speaks = null;
      engine.isTold = true;
      if (engine.doing === 'stands') start(engine, now);
      return true;
    }
    const engine = engines.find((one) => wordsFrom(one) <= now + HAIR);
    if (engine === undefined) return false;
    const till = now + (wishes.talks?.() ?? options.talkSeconds);
    voice.speaks = { engine, till };
    words.push({ train: engine.id, at: now, till });
    return true;
  };

  const enter = (engine: Engine, next: Piece): void => {
    const isNew = pieceBehind(engine)?.block !== next.block;
    engine.move?.edges.push(next.edge);
    if (!isNew) return;
    engine.move?.blocks.push(next.block);
    say({ do: 'train-entered', train: engine.id, block: next.block });
  };
  const stop = (engine: Engine): void => {
    const move = endedMove(engine, now);
    if (move !== null) moves.push(move);
    engine.move = null;
    engine.doing = 'stands';
    say({ do: 'train-stopped', train: engine.id });
    const here = engine.isTold ? nextStop(engine) : undefined;
    engine.isTold = false;
    if (here !== undefined) start(engine, Math.max(now, here.goesOn - options.startSeconds));
  };
  const clear = (engine: Engine): void => {
    for (const block of newlyCleared(engine)) {
      // A tail that was at the gap at first had left that block already.
      if (evening.state.trains[engine.id]?.blocks.includes(block) !== true) continue;
      clearedAt.set(block, now);
      timesCleared.set(`${engine.id} ${block}`, (timesCleared.get(`${engine.id} ${block}`) ?? 0) + 1);
      say({ do: 'train-cleared', train: engine.id, block });
    }
  };
  const due = (engine: Engine): number =>
    engine.doing === 'starts'
      ? engine.departs
      : engine.doing === 'runs'
        ? nextPlace(engine).at
        : Number.POSITIVE_INFINITY;
  const drive = (): boolean => {
    const engine = engines.find((one) => due(one) <= now + HAIR);
    if (engine === undefined) return false;
    if (engine.doing === 'runs') engine.mm = nextPlace(engine).mm;
    engine.since = now;
    engine.doing = 'runs';
    clear(engine);
    const next = pieceAhead(engine);
    if (
      next !== undefined &&
      mayEnterFrom(pieceBehind(engine), next, hands.readyFrom(engine.id, next.block)) <= now + A_MOMENT
    )
      enter(engine, next);
    else if (pieceBehind(engine) !== undefined) stop(engine);
    return true;
  };
  const throwOne = (): boolean => {
    const work = hands.work(now);
    if (work?.input != null) say(work.input);
    return work !== null;
  };
  for (let steps = 0; steps < MOST_STEPS; steps += 1) {
    if (throwOne() || giveOrder() || drive() || speak()) continue;
    easeOff();
    const times = [
      hands.next(now),
      voice.speaks?.till ?? Math.min(...engines.map(wordsFrom)),
      ...engines.map(due),
      ...orders.flatMap(({ at }, place) => (given.includes(place) ? [] : [at - wishes.aheadSeconds])),
    ].filter((at) => at > now + HAIR);
    const next = Math.min(...times);
    if (!Number.isFinite(next)) break;
    now = next;
  }
  moves.sort((one, other) => one.start - other.start);
  const throws = hands.done;
  const keptTimes = !wasSlow && throws.every(({ at, till }) => till - at < options.throwSeconds + HAIR);
  return { moves, throws, total: totalOf(moves), events, words, given, far, keptTimes, begun, evening };
}
