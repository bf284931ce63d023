/**
 * The least total that any plan has, by trying everything: time goes on in whole seconds, and in every one each train may set out and
 * the hands may throw anything (A* over what all trains, knobs and hands are at). By the second reading of the text, and sharing no
 * code with the planner. For railroads without toggles whose times are all whole seconds; since every time of a plan without needless
 * waits is then a sum of whole seconds, none has less.
 */
import type { BlockId, NodeId, ThrottleId } from '../../shared-model/ids.ts';
import type { PlanOptions } from '../../shared-model/planning/plan/options.ts';
import type { SituationJson } from '../../shared-model/planning/situation.ts';
import type { RailroadDocument } from '../../shared-model/railroad/document.ts';
import { stateName } from './plain-passages.ts';
import {
  lengthOf,
  type PlainRailroad,
  type PlainRun,
  type PlainSpot,
  type PlainTrain,
  plainRuns,
  plainStart,
} from './plain-situation.ts';

/** A knob that has to stand so for a run, when a block is entered. */
interface Want {
  readonly knob: string;
  readonly value: string;
}
interface TimedEntry {
  readonly thing: string;
  readonly wants: readonly Want[];
}
interface ExactRun {
  readonly to: number;
  readonly takes: number;
  readonly enters: readonly TimedEntry[];
  readonly clears: ReadonlyMap<string, number>;
}
interface ExactNode {
  readonly train: PlainTrain;
  readonly things: readonly string[];
  readonly isGoal: boolean;
  readonly runs: ExactRun[];
  left: number;
}

/** What is under a train. */
const thingsUnder = ({ spots }: PlainTrain): string[] => [...new Set(spots.map(({ block }) => `${block}`))];

/** Levers on the way by the spot that they are passed to. */
const wantsLever = (from: PlainSpot, to: PlainSpot): Want[] => {
  const way = from.next.find(({ name }) => name === to.name);
  return way?.lever == null || way.position === null ? [] : [{ knob: way.lever, value: way.position }];
};

function selectorOf(document: RailroadDocument, block: BlockId): string | null {
  const source = document.blocks.find(({ id }) => id === block)?.source;
  return source !== undefined && 'selector' in source ? source.selector : null;
}

function timed(
  railroad: PlainRailroad,
  train: PlainTrain,
  run: PlainRun,
  to: number,
  cab: string,
  lengthMm: number,
  speed: number,
): ExactRun {
  const seconds = (mm: number): number => Math.round(mm / speed);
  const enters: { thing: string; wants: Want[] }[] = [];
  const ends = new Map<string, number>();
  let at = -train.spots.reduce((sum, spot) => sum + spot.lengthMm, 0);
  for (const spot of [...train.spots].reverse()) {
    at += spot.lengthMm;
    ends.set(`${spot.block}`, at);
  }
  let before = train.spots[0] as PlainSpot;
  for (const spot of run.entered) {
    const levers = wantsLever(before, spot);
    if (spot.block !== before.block) {
      const selector = spot.block === undefined ? null : selectorOf(railroad.document, spot.block);
      const wants = selector === null ? [] : [{ knob: selector, value: cab }];
      if (at > 0) throw new Error('a block that is entered in the middle of a run is not tried here');
      enters.push({ thing: `${spot.block}`, wants });
    }
    // A lever inside the block is asked for when the block is entered: it cannot be thrown under the train.
    (enters.at(-1)?.wants ?? []).push(...levers);
    at += spot.lengthMm;
    ends.set(`${spot.block}`, at);
    before = spot;
  }
  const clears = new Map(
    [...ends].flatMap(([thing, end]): [string, number][] =>
      end + lengthMm <= at + 1e-6 ? [[thing, seconds(end + lengthMm)]] : [],
    ),
  );
  return { to, takes: seconds(at), enters, clears };
}

function exactGraph(
  railroad: PlainRailroad,
  start: PlainTrain,
  goal: string,
  cab: string,
  lengthMm: number,
  speed: number,
): readonly ExactNode[] {
  const nodes: ExactNode[] = [];
  const numbers = new Map<string, number>();
  const numberOf = (train: PlainTrain): number => {
    const key = train.spots.map(({ name }) => name).join();
    const known = numbers.get(key);
    if (known !== undefined) return known;
    numbers.set(key, nodes.length);
    nodes.push({
      train,
      things: thingsUnder(train),
      isGoal: train.spots[0]?.block === goal,
      runs: [],
      left: Number.POSITIVE_INFINITY,
    });
    return nodes.length - 1;
  };
  numberOf(start);
  for (let next = 0; next < nodes.length; next += 1) {
    const node = nodes[next] as ExactNode;
    for (const run of plainRuns(railroad, node.train, lengthMm, cab as ThrottleId, false))
      node.runs.push(timed(railroad, node.train, run, numberOf(run.after), cab, lengthMm, speed));
    if (node.isGoal) node.left = 0;
  }
  for (let changed = true; changed; ) {
    changed = false;
    for (const node of nodes)
      for (const run of node.runs) {
        const left = run.takes + (nodes[run.to] as ExactNode).left;
        if (left < node.left) {
          node.left = left;
          changed = true;
        }
      }
  }
  return nodes;
}

interface TrainNow {
  readonly node: number;
  /** Index of the run that it is on; -1: it stands; -2: it is there for good. */
  readonly run: number;
  readonly gone: number;
}
interface State {
  readonly trains: readonly TrainNow[];
  readonly knobs: Readonly<Record<string, string>>;
  /** What is thrown at present, and for how long still. */
  readonly throwing: { readonly knob: string; readonly value: string; readonly still: number } | null;
  /** Seconds until things that a tail has left, and until things that a throw has touched, may be had. */
  readonly left: Readonly<Record<string, number>>;
  readonly quiet: Readonly<Record<string, number>>;
}

const THERE = -2;
const STANDS = -1;

const counted = (record: Readonly<Record<string, number>>): Record<string, number> =>
  Object.fromEntries(
    Object.entries(record).flatMap(([thing, still]) => (still > 1 ? [[thing, still - 1]] : [])),
  );

/**
 * @param speed of every train, in millimetres a second
 * @param below only totals below this are looked for
 * @param most states to look at
 * @returns the least total; `below` itself when there is none below; null when there are too many states
 */
export function exactTotal(
  railroad: PlainRailroad,
  situation: SituationJson,
  { throwSeconds, marginSeconds }: PlanOptions,
  speed: number,
  below: number,
  most: number,
): number | null {
  const { document } = railroad;
  const starts = plainStart(railroad, situation);
  const graphs = situation.trains.map((train, index) =>
    exactGraph(
      railroad,
      starts[index] as PlainTrain,
      `${train.to}`,
      train.cab,
      lengthOf(railroad, train.train),
      speed,
    ),
  );
  const touches = new Map<string, string[]>();
  for (const { id, source } of document.blocks)
    if ('selector' in source) touches.set(source.selector, [...(touches.get(source.selector) ?? []), id]);
  const allSpots = document.edges.flatMap(({ id, between }) =>
    between.map((toward) => railroad.spot(stateName(id, toward))),
  );
  for (const { id, kind } of document.nodes) {
    if (kind !== 'turnout') continue;
    touches.set(id, [
      ...new Set(
        allSpots
          .filter(({ edge }) => document.edges.find((one) => one.id === edge)?.between.includes(id as NodeId))
          .map(({ block }) => `${block}`),
      ),
    ]);
  }
  const useful = new Map<string, { knob: string; value: string }>();
  for (const graph of graphs)
    for (const { runs, left } of graph)
      for (const { enters, to } of runs)
        if (Number.isFinite(left) && Number.isFinite((graph[to] as ExactNode).left))
          for (const { wants } of enters)
            for (const want of wants) useful.set(`${want.knob}=${want.value}`, want);

  const knobs: Record<string, string> = {};
  for (const { id } of document.selectors) knobs[id] = situation.selectors?.[id] ?? 'off';
  for (const { id, kind } of document.nodes)
    if (kind === 'turnout') knobs[id] = situation.turnouts?.[id] ?? 'normal';
  situation.trains.forEach(({ cab }, index) => {
    for (const { block } of (starts[index] as PlainTrain).spots) {
      const selector = block === undefined ? null : selectorOf(document, block);
      if (selector !== null) knobs[selector] = cab;
    }
  });

  const nodeOf = (index: number, now: TrainNow): ExactNode =>
    (graphs[index] as readonly ExactNode[])[now.node] as ExactNode;
  /** Who has what at a moment: what is under those that stand, and what those that run have entered and not cleared. */
  const holders = (trains: readonly TrainNow[]): Map<string, number> => {
    const held = new Map<string, number>();
    trains.forEach((now, index) => {
      const node = nodeOf(index, now);
      const run = node.runs[now.run];
      for (const thing of node.things)
        if (run === undefined || (run.clears.get(thing) ?? Number.POSITIVE_INFINITY) > now.gone)
          held.set(thing, index);
      for (const { thing } of run?.enters ?? [])
        if ((run?.clears.get(thing) ?? Number.POSITIVE_INFINITY) > now.gone) held.set(thing, index);
    });
    return held;
  };
  const keyOf = (state: State): string =>
    JSON.stringify([
      state.trains.map(({ node, run, gone }) => [node, run, gone]),
      Object.values(state.knobs),
      state.throwing,
      Object.entries(state.left).sort(),
      Object.entries(state.quiet).sort(),
    ]);
  const guess = (state: State): number =>
    state.trains.reduce((sum, now, index) => {
      if (now.run === THERE) return sum;
      const node = nodeOf(index, now);
      const run = node.runs[now.run];
      return (
        sum +
        (run === undefined
          ? node.left
          : run.takes - now.gone + ((graphs[index] as readonly ExactNode[])[run.to] as ExactNode).left)
      );
    }, 0);

  /** Whether what is entered at this very moment may be. */
  const mayEnter = (
    state: State,
    held: ReadonlyMap<string, number>,
    index: number,
    entry: TimedEntry,
  ): boolean => {
    const by = held.get(entry.thing);
    if (by !== undefined && by !== index) return false;
    if ((state.left[entry.thing] ?? 0) > 0 || (state.quiet[entry.thing] ?? 0) > 0) return false;
    if (state.throwing !== null && touches.get(state.throwing.knob)?.includes(entry.thing) === true)
      return false;
    return entry.wants.every(
      ({ knob, value }) => state.knobs[knob] === value && state.throwing?.knob !== knob,
    );
  };

  /** Everything that may be decided at one moment, the hands first, then train by train. */
  function* decisions(state: State): Generator<State> {
    const held = holders(state.trains);
    const hands: State[] = [state];
    if (state.throwing === null)
      for (const { knob, value } of useful.values()) {
        if (state.knobs[knob] === value) continue;
        if ((touches.get(knob) ?? []).some((thing) => held.has(thing) || (state.left[thing] ?? 0) > 0))
          continue;
        hands.push({ ...state, throwing: { knob, value, still: throwSeconds } });
      }
    function* trainsFrom(now: State, index: number): Generator<State> {
      const train = now.trains[index];
      if (train === undefined) {
        yield now;
        return;
      }
      yield* trainsFrom(now, index + 1);
      if (train.run !== STANDS) return;
      const node = nodeOf(index, train);
      const changed = (one: TrainNow): State => ({
        ...now,
        trains: now.trains.map((other, place) => (place === index ? one : other)),
      });
      if (node.isGoal) yield* trainsFrom(changed({ ...train, run: THERE }), index + 1);
      for (const [number, run] of node.runs.entries()) {
        if (!Number.isFinite(((graphs[index] as readonly ExactNode[])[run.to] as ExactNode).left)) continue;
        const there = holders(now.trains);
        if (run.enters.every((entry) => mayEnter(now, there, index, entry)))
          yield* trainsFrom(changed({ ...train, run: number, gone: 0 }), index + 1);
      }
    }
    for (const one of hands) yield* trainsFrom(one, 0);
  }

  /** One second later. */
  const later = (state: State): State => {
    const left = counted(state.left);
    const quiet = counted(state.quiet);
    let nowKnobs = state.knobs;
    let { throwing } = state;
    if (throwing !== null) {
      if (throwing.still > 1) throwing = { ...throwing, still: throwing.still - 1 };
      else {
        nowKnobs = { ...nowKnobs, [throwing.knob]: throwing.value };
        if (marginSeconds > 0)
          for (const thing of touches.get(throwing.knob) ?? []) quiet[thing] = marginSeconds;
        throwing = null;
      }
    }
    const trains = state.trains.map((now, index): TrainNow => {
      const run = nodeOf(index, now).runs[now.run];
      if (run === undefined) return now;
      const gone = now.gone + 1;
      if (marginSeconds > 0)
        for (const [thing, at] of run.clears) if (at === gone) left[thing] = marginSeconds;
      return gone < run.takes ? { ...now, gone } : { node: run.to, run: STANDS, gone: 0 };
    });
    return { trains, knobs: nowKnobs, throwing, left, quiet };
  };

  const first: State = {
    trains: situation.trains.map(() => ({ node: 0, run: STANDS, gone: 0 })),
    knobs,
    throwing: null,
    left: {},
    quiet: {},
  };
  const buckets = new Map<number, { state: State; cost: number }[]>();
  const seen = new Map<string, number>();
  const push = (state: State, cost: number): void => {
    const whole = cost + guess(state);
    if (whole >= below - 1e-6) return;
    const key = keyOf(state);
    if ((seen.get(key) ?? Number.POSITIVE_INFINITY) <= cost) return;
    seen.set(key, cost);
    const bucket = buckets.get(whole) ?? [];
    bucket.push({ state, cost });
    buckets.set(whole, bucket);
  };
  push(first, 0);
  for (;;) {
    const least = Math.min(...buckets.keys());
    if (!Number.isFinite(least)) return below;
    const item = buckets.get(least)?.pop();
    if (item === undefined) {
      buckets.delete(least);
      continue;
    }
    if ((seen.get(keyOf(item.state)) ?? 0) < item.cost) continue;
    if (item.state.trains.every(({ run }) => run === THERE)) return item.cost;
    if (seen.size > most) return null;
    for (const decided of decisions(item.state)) {
      if (decided.trains.every(({ run }) => run === THERE)) {
        push(decided, item.cost);
        continue;
      }
      push(later(decided), item.cost + decided.trains.filter(({ run }) => run !== THERE).length);
    }
  }
}
