/** A second reading of "Travel" in design/2-railroad.md, straight from the document and sharing nothing with `travel.ts`. */
import type { BlockId, EdgeId, NodeId } from '../../shared-model/ids.ts';
import type { RailroadDocument } from '../../shared-model/railroad/document.ts';

export interface PlainPassage {
  readonly from: string;
  readonly to: string;
  readonly edge: EdgeId;
  readonly lengthMm: number;
  readonly lever: NodeId | null;
  readonly position: 'normal' | 'reverse' | null;
  /** Whether the lever has to stand so before: a train that trails a self-lining turnout moves it itself. */
  readonly needs: boolean;
}

/** The name of a state: on this edge, facing this node. */
export const stateName = (edge: string, toward: string): string => `${edge}:${toward}`;

type Pair = readonly [EdgeId, EdgeId, 'normal' | 'reverse' | null];

function pairsAt(document: RailroadDocument, node: RailroadDocument['nodes'][number]): readonly Pair[] {
  if (node.kind === 'end') return [];
  if (node.kind === 'turnout')
    return [
      [node.trunk, node.normal, 'normal'],
      [node.trunk, node.reverse, 'reverse'],
    ];
  if (node.kind === 'crossing') {
    const thrown = node.slips === undefined ? null : ('normal' as const);
    return [
      ...node.ways.map(([a, b]): Pair => [a, b, thrown]),
      ...(node.slips ?? []).map(([a, b]): Pair => [a, b, 'reverse']),
    ];
  }
  const [a, b] = document.edges.filter((edge) => edge.between.includes(node.id)).map((edge) => edge.id);
  return a === undefined || b === undefined ? [] : [[a, b, null]];
}

/** Every legal passage of a railroad, in both directions. */
export function plainPassages(document: RailroadDocument): readonly PlainPassage[] {
  const edges = new Map(document.edges.map((edge) => [edge.id, edge]));
  return document.nodes.flatMap((node) =>
    pairsAt(document, node).flatMap(([a, b, position]) =>
      (
        [
          [a, b],
          [b, a],
        ] as const
      ).flatMap(([from, to]): PlainPassage[] => {
        const entered = edges.get(to);
        if (entered === undefined) return [];
        const far = entered.between[0] === node.id ? entered.between[1] : entered.between[0];
        return [
          {
            from: stateName(from, node.id),
            to: stateName(to, far),
            edge: to,
            lengthMm: entered.length,
            lever: position === null ? null : node.id,
            position,
            needs:
              position !== null &&
              !(node.kind === 'turnout' && node.selfLining === true && to === node.trunk),
          },
        ];
      }),
    ),
  );
}

/** Where a route to a block may end: on its edges, toward a gap or an end of track. */
export function plainGoals(document: RailroadDocument, edges: readonly EdgeId[]): ReadonlySet<string> {
  const stops = new Set(
    document.nodes.filter((node) => node.kind === 'gap' || node.kind === 'end').map((node) => node.id),
  );
  const named = document.edges.filter((edge) => edges.includes(edge.id));
  return new Set(
    named.flatMap((edge) =>
      edge.between.filter((node) => stops.has(node)).map((node) => stateName(edge.id, node)),
    ),
  );
}

export interface PlainWalk {
  readonly edges: readonly EdgeId[];
  readonly lengthMm: number;
  readonly inReverse: number;
  /** Whether no turnout is needed in both settings. */
  readonly oneSetting: boolean;
}

const listed = (a: readonly string[], b: readonly string[]): number => {
  for (let i = 0; i < Math.min(a.length, b.length); i += 1) {
    const left = a[i] ?? '';
    const right = b[i] ?? '';
    if (left !== right) return left < right ? -1 : 1;
  }
  return a.length - b.length;
};

/**
 * All walks from a state to the first goal on them that are in no state twice (but may end where they began), best first, by trying
 * every one; undefined when there are more than `most` tries.
 */
export function allWalks(
  document: RailroadDocument,
  from: { readonly edge: EdgeId; readonly toward: NodeId },
  goals: ReadonlySet<string>,
  isOpen: (edge: EdgeId) => boolean,
  most: number,
): readonly PlainWalk[] | undefined {
  const origin = stateName(from.edge, from.toward);
  const onward = new Map<string, PlainPassage[]>();
  for (const passage of plainPassages(document))
    onward.set(passage.from, [...(onward.get(passage.from) ?? []), passage]);
  const walks: PlainWalk[] = [];
  let tries = 0;
  const goOn = (state: string, seen: ReadonlySet<string>, steps: readonly PlainPassage[]): void => {
    for (const passage of onward.get(state) ?? []) {
      tries += 1;
      if (tries > most) return;
      if (!isOpen(passage.edge)) continue;
      const way = [...steps, passage];
      if (goals.has(passage.to)) {
        const set = way.filter(({ needs }) => needs);
        const needed = set.map(({ lever, position }) => `${lever} ${position}`);
        const levers = set.map(({ lever }) => lever);
        walks.push({
          edges: [from.edge, ...way.map((one) => one.edge)],
          lengthMm: way.reduce((sum, one) => sum + one.lengthMm, 0),
          inReverse: way.filter((one) => one.position === 'reverse').length,
          oneSetting: new Set(needed).size === new Set(levers).size,
        });
      } else if (!seen.has(passage.to)) goOn(passage.to, new Set([...seen, passage.to]), way);
    }
  };
  goOn(origin, new Set([origin]), []);
  if (tries > most) return undefined;
  return walks.sort(
    (a, b) => a.lengthMm - b.lengthMm || a.inReverse - b.inReverse || listed(a.edges, b.edges),
  );
}

/** The edges of a block, found by flooding from its feeders and stopping at gaps and insulated crossings. */
export function plainExtent(document: RailroadDocument, block: BlockId): ReadonlySet<EdgeId> {
  const nodes = new Map(document.nodes.map((node) => [node.id, node]));
  const feeders = document.blocks.find((one) => one.id === block)?.feeders ?? [];
  const reached = new Set<EdgeId>(feeders.map((feeder) => feeder.edge));
  for (const id of reached)
    for (const end of document.edges.find((edge) => edge.id === id)?.between ?? []) {
      const node = nodes.get(end);
      if (node === undefined || node.kind === 'gap') continue;
      const joined =
        node.kind === 'crossing' && node.insulated
          ? (node.ways.find((way) => way.includes(id)) ?? [])
          : document.edges.filter((edge) => edge.between.includes(end)).map((edge) => edge.id);
      for (const edge of joined) reached.add(edge);
    }
  return reached;
}
