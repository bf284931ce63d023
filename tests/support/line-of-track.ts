/** Small railroads for hand-worked examples: track alone is given, and every section gets a block of its own name. */
import {
  type RailroadDocument,
  railroadDocument,
  type TrackNode,
} from '../../shared-model/railroad/document.ts';
import { indexRailroad, type Railroad } from '../../shared-model/railroad/railroad.ts';
import type { z } from '../../shared-model/zod.ts';

type NodeText = DistributiveOmit<z.input<typeof railroadDocument>['nodes'][number], 'at'>;
type DistributiveOmit<T, Key extends PropertyKey> = T extends unknown ? Omit<T, Key> : never;

export interface SmallTrack {
  readonly nodes: readonly NodeText[];
  /** Id, one end, the other end, millimetres. */
  readonly edges: readonly (readonly [string, string, string, number])[];
  /** Block id and the edge its feeder is on; all are on selectors that have cabs 1 and 2. */
  readonly blocks: Readonly<Record<string, string>>;
}

/** Ends, joints and gaps by their ids: "n" an end, "j" a joint, "g" a gap, as the first letter says. */
export function plainNodes(...ids: readonly string[]): NodeText[] {
  return ids.map((id) => {
    const kind = id.startsWith('n') ? 'end' : id.startsWith('j') ? 'joint' : 'gap';
    return { id, kind } as NodeText;
  });
}

export const turnout = (id: string, trunk: string, normal: string, reverse: string): NodeText =>
  ({ id, kind: 'turnout', trunk, normal, reverse }) as NodeText;

/** The document of a small track; `change` may alter it before it is parsed. */
export function smallDocument(
  track: SmallTrack,
  change: Partial<z.input<typeof railroadDocument>> = {},
): RailroadDocument {
  return railroadDocument.parse({
    format: 'cabward-railroad/1',
    name: 'Small',
    scaleRatio: 48,
    system: 'three-rail-ac',
    nodes: track.nodes.map((node, index) => ({ ...node, at: [index, 0] }) as TrackNode),
    edges: track.edges.map(([id, a, b, length]) => ({ id, between: [a, b], length })),
    supplies: [
      { id: 'north', name: 'North', ratedVa: 180, maxVolts: 18, impedanceOhms: 0.2, breakerAmps: 10 },
    ],
    throttles: ['1', '2'].map((id) => ({ id, name: `Cab ${id}`, supply: 'north', maxAmps: 8 })),
    selectors: Object.keys(track.blocks).map((block) => ({
      id: `K-${block}`,
      name: block,
      positions: ['off', '1', '2'],
      stops: true,
      contactAmps: 8,
    })),
    toggles: [],
    blocks: Object.entries(track.blocks).map(([id, edge]) => ({
      id,
      name: id,
      source: { selector: `K-${id}` },
      feeders: [{ edge }],
    })),
    trains: [],
    places: [],
    settings: [],
    ...change,
  });
}

/** The document of a small track with trains t1 and t2, a metre each, whose block Hold is a section behind toggle H, fed from Middle. */
export function holdDocument(track: SmallTrack): RailroadDocument {
  return smallDocument(track, {
    trains: ['t1', 't2'].map((id) => ({ id, name: id, length: 1000, amps: 1 })),
    toggles: [{ id: 'H', name: 'Hold' }],
    blocks: smallDocument(track).blocks.map((block) =>
      block.id === 'Hold' ? { ...block, source: { toggle: 'H', from: 'Middle' } } : block,
    ),
  });
}

/** The same, indexed. */
export const smallRailroad = (track: SmallTrack): Railroad => indexRailroad(smallDocument(track));
