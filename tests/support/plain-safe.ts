/** The truth about safe states: every joint standing, breadth first, by the second reading of the text and no pruning at all. */
import type { ThrottleId } from '../../shared-model/ids.ts';
import type { SituationJson } from '../../shared-model/planning/situation.ts';
import {
  lengthOf,
  type PlainRailroad,
  type PlainTrain,
  plainBlocks,
  plainDiamonds,
  plainRuns,
  plainStart,
} from './plain-situation.ts';

interface Node {
  readonly train: PlainTrain;
  readonly blocks: ReadonlySet<string>;
  readonly diamonds: ReadonlySet<string>;
  runs: readonly { readonly needed: readonly string[]; readonly to: number }[] | null;
}

/** The standings of one train as they are found, and the runs between them. */
function plainGraph(
  railroad: PlainRailroad,
  start: PlainTrain,
  runsOf: (train: PlainTrain) => ReturnType<typeof plainRuns>,
) {
  const numbers = new Map<string, number>();
  const nodes: Node[] = [];
  const numberOf = (train: PlainTrain): number => {
    const key = train.spots.map(({ name }) => name).join();
    const known = numbers.get(key);
    if (known !== undefined) return known;
    numbers.set(key, nodes.length);
    nodes.push({ train, blocks: plainBlocks(train), diamonds: plainDiamonds(railroad, train), runs: null });
    return nodes.length - 1;
  };
  numberOf(start);
  return {
    node: (number: number): Node => {
      const node = nodes[number];
      if (node === undefined) throw new Error('no such standing');
      return node;
    },
    runs: (number: number) => {
      const node = nodes[number];
      if (node === undefined) throw new Error('no such standing');
      node.runs ??= runsOf(node.train).map(({ needed, diamonds, after }) => ({
        needed: [...needed, ...diamonds],
        to: numberOf(after),
      }));
      return node.runs;
    },
  };
}

/** @returns whether the state is safe, with the number of states seen; null where there are more than `most` */
export function plainSafe(
  railroad: PlainRailroad,
  situation: SituationJson,
  most: number,
): { readonly safe: boolean; readonly states: number } | null {
  const trains = situation.trains.map((train, index) => {
    const start = plainStart(railroad, situation)[index];
    if (start === undefined) throw new Error('no such train');
    const runsOf = (here: PlainTrain) =>
      train.to === undefined
        ? []
        : plainRuns(
            railroad,
            here,
            lengthOf(railroad, train.train),
            train.cab as ThrottleId,
            situation.reversals === true,
          );
    return { to: train.to, graph: plainGraph(railroad, start, runsOf) };
  });
  const arrived = (state: readonly number[]): boolean =>
    trains.every(
      ({ to, graph }, index) =>
        to === undefined || graph.node(state[index] ?? 0).train.spots[0]?.block === to,
    );
  const first = trains.map(() => 0);
  const seen = new Set([first.join()]);
  const queue = [first];
  if (arrived(first)) return { safe: true, states: 1 };
  for (let state = queue.shift(), next = 0; state !== undefined; next += 1, state = queue[next - 1]) {
    if (seen.size > most) return null;
    for (const [index, { graph }] of trains.entries())
      for (const { needed, to } of graph.runs(state[index] ?? 0)) {
        const isBarred = trains.some((other, place) => {
          if (place === index) return false;
          const { blocks, diamonds } = other.graph.node(state?.[place] ?? 0);
          return needed.some((thing) => blocks.has(thing) || diamonds.has(thing));
        });
        if (isBarred) continue;
        const reached = state.map((standing, place) => (place === index ? to : standing));
        const key = reached.join();
        if (seen.has(key)) continue;
        seen.add(key);
        queue.push(reached);
        if (arrived(reached)) return { safe: true, states: seen.size };
      }
  }
  return { safe: false, states: seen.size };
}
