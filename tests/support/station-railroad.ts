/** Generated railroads as clubs build them: stations of two or three tracks, joined by single track, in a ring or from end to end. */
import type { BlockId, EdgeId, NodeId } from '../../shared-model/ids.ts';
import {
  type RailroadDocument,
  railroadDocument,
  type TrackEdge,
  type TrackNode,
} from '../../shared-model/railroad/document.ts';
import { type Chance, chanceOf } from './chance.ts';

export interface StationWishes {
  /** About how many blocks. */
  readonly blocks: number;
  readonly trains: number;
  readonly ring: boolean;
}

const LONGEST_TRAIN_MM = 2000;

class Layer {
  readonly nodes: TrackNode[] = [];
  readonly edges: TrackEdge[] = [];
  readonly feeders: EdgeId[] = [];
  private readonly chance: Chance;

  constructor(chance: Chance) {
    this.chance = chance;
  }

  node(kind: 'end' | 'gap'): NodeId {
    const id = `${kind === 'end' ? 'n' : 'g'}${this.nodes.length + 1}` as NodeId;
    this.nodes.push({ id, kind, at: [this.nodes.length, 0] });
    return id;
  }

  edge(a: NodeId, b: NodeId, lengthMm: number): EdgeId {
    const id = `e${this.edges.length + 1}` as EdgeId;
    this.edges.push({ id, between: [a, b], length: lengthMm });
    return id;
  }

  /** A block that is one edge, fed on it; every train fits into it. */
  plainBlock(a: NodeId, b: NodeId): void {
    this.feeders.push(this.edge(a, b, this.chance.between(LONGEST_TRAIN_MM / 100 + 1, 45) * 100));
  }

  /**
   * Turnouts from one track to several, all in the block of `lead`: each splits one track off.
   *
   * @returns the gaps at the far ends of the tracks
   */
  ladder(lead: NodeId, leadMm: number, tracks: number): NodeId[] {
    const ids = Array.from({ length: tracks - 1 }, (_, n) => `T${this.nodes.length + 1 + n}` as NodeId);
    const ends: NodeId[] = [];
    let trunk = this.edge(lead, ids[0] ?? lead, leadMm);
    this.feeders.push(trunk);
    ids.forEach((id, index) => {
      const next = ids[index + 1];
      const straight = next ?? this.gapAt(ends);
      const normal = this.edge(id, straight, 200);
      const reverse = this.edge(id, this.gapAt(ends), 200);
      this.nodes.push({ id, kind: 'turnout', at: [this.nodes.length, 1], trunk, normal, reverse });
      trunk = normal;
    });
    return ends;
  }

  private gapAt(ends: NodeId[]): NodeId {
    // Turnout ids were counted ahead from the number of nodes, so gaps of a ladder are named apart from both.
    const id = `G${this.edges.length + 1}` as NodeId;
    this.nodes.push({ id, kind: 'gap', at: [this.nodes.length, 2] });
    ends.push(id);
    return id;
  }
}

/** One station: tracks between two ladders. The ladders lie in blocks of their own, or in the single track that leads to them. */
function addStation(layer: Layer, chance: Chance, west: NodeId, east: NodeId): void {
  const tracks = chance.between(2, 3);
  const leadMm = chance.inHundred(60) ? 300 : chance.between(20, 40) * 100;
  const westEnds = layer.ladder(west, leadMm, tracks);
  const eastEnds = layer.ladder(east, leadMm, tracks);
  westEnds.forEach((end, track) => {
    const other = eastEnds[track];
    if (other !== undefined) layer.plainBlock(end, other);
  });
}

/**
 * A railroad of about so many blocks, every one with a selector wired for every cab.
 *
 * @param seed the same seed and wishes always give the same railroad
 */
export function stationRailroad(seed: number, wishes: StationWishes): RailroadDocument {
  const chance = chanceOf(seed);
  const layer = new Layer(chance);
  const first = layer.node(wishes.ring ? 'gap' : 'end');
  let at = first;
  const single = (): void => {
    for (let blocks = chance.between(1, 2); blocks > 0; blocks -= 1) {
      const next = layer.node('gap');
      layer.plainBlock(at, next);
      at = next;
    }
  };
  while (layer.feeders.length < wishes.blocks - 4) {
    single();
    const east = layer.node('gap');
    addStation(layer, chance, at, east);
    at = east;
  }
  layer.plainBlock(at, wishes.ring ? first : layer.node('end'));
  const throttles = Array.from({ length: wishes.trains }, (_, n) => `${n + 1}`);
  const numbered = layer.feeders.map((edge, index) => ({ edge, number: index + 1 }));
  return railroadDocument.parse({
    format: 'cabward-railroad/1',
    name: `Stations ${seed}/${wishes.blocks}`,
    scaleRatio: 48,
    system: 'three-rail-ac',
    nodes: layer.nodes,
    edges: layer.edges,
    supplies: [{ id: 'S', name: 'Supply', ratedVa: 180, maxVolts: 18, impedanceOhms: 0.2, breakerAmps: 10 }],
    throttles: throttles.map((id) => ({ id, name: `Cab ${id}`, supply: 'S', maxAmps: 8 })),
    selectors: numbered.map(({ number }) => ({
      id: `K${number}`,
      name: `${number}`,
      positions: ['off', ...throttles],
      stops: true,
      contactAmps: 8,
    })),
    toggles: [],
    blocks: numbered.map(({ edge, number }) => ({
      id: `B${number}`,
      name: `Block ${number}`,
      source: { selector: `K${number}` },
      feeders: [{ edge }],
    })),
    trains: throttles.map((id) => ({
      id: `t${id}`,
      name: `No. ${id}`,
      length: chance.between(8, LONGEST_TRAIN_MM / 100) * 100,
      amps: 2,
    })),
    places: [],
    settings: [],
  });
}

/** The tracks of the stations: blocks of one edge between two ladders. */
export function stationTracks(document: RailroadDocument): ReadonlySet<BlockId> {
  const between = new Map(document.edges.map((edge) => [edge.id, edge.between]));
  const isTrack = (edge: EdgeId): boolean =>
    between.get(edge)?.every((node) => node.startsWith('G')) === true;
  return new Set(
    document.blocks.filter(({ feeders }) => feeders.some(({ edge }) => isTrack(edge))).map(({ id }) => id),
  );
}
