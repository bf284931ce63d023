/** Small railroads drawn by hand, each for something that the rules must get right. */
import { type RailroadDocument, railroadDocument } from '../../shared-model/railroad/document.ts';

interface Sketch {
  name: string;
  /** "edge from to length"; a node's kind is its first letter: n end, g gap, j joint. */
  edges: string[];
  /** "T1 trunk normal reverse", a trailing "!" says self-lining. */
  turnouts?: string[];
  /** "X1 a b c d": ways a-b and c-d; "!" says insulated; "+a d" adds a slip. */
  crossings?: string[];
  /** "B1 e1 K1" on a selector, "B1 e1 =1" straight to throttle 1, "B1 e1 H1<B2" behind a toggle. */
  blocks: string[];
  /** "K1 off 1 2 -": a hyphen is not wired; "~" after the id says no stops, "^" make-before-break. */
  dials: string[];
  /** "1 north 8". */
  throttles?: string[];
  /** "t1 1400 3". */
  trains?: string[];
  places?: string[];
}

const KINDS: Record<string, string> = { n: 'end', g: 'gap', j: 'joint' };
const words = (text: string): string[] => text.split(' ').filter((word) => word !== '');
const word = (list: readonly string[], index: number): string => list[index] ?? '';

function nodesOf(sketch: Sketch): unknown[] {
  const plain = new Set(sketch.edges.flatMap((edge) => words(edge).slice(1, 3)));
  const turnouts = (sketch.turnouts ?? []).map((text) => {
    const [id, trunk, normal, reverse, more] = words(text);
    return { id, kind: 'turnout', at: [0, 0], trunk, normal, reverse, ...(more ? { selfLining: true } : {}) };
  });
  const crossings = (sketch.crossings ?? []).map((text) => {
    const [ways, ...slips] = text.split('+').map(words);
    const [id, a, b, c, d, more] = ways ?? [];
    return {
      id,
      kind: 'crossing',
      at: [0, 0],
      ways: [
        [a, b],
        [c, d],
      ],
      insulated: more === '!',
      ...(slips.length > 0 ? { slips } : {}),
    };
  });
  const thrown = [...turnouts, ...crossings];
  for (const { id } of thrown) plain.delete(id ?? '');
  return [...[...plain].map((id) => ({ id, kind: KINDS[id.charAt(0)], at: [0, 0] })), ...thrown];
}

function sourceOf(text: string): unknown {
  if (text.startsWith('=')) return { throttle: text.slice(1) };
  const [toggle, from] = text.split('<');
  return from === undefined ? { selector: text } : { toggle, from };
}

/** Draws a document from a sketch, parsed by the schema. */
export function drawn(sketch: Sketch): RailroadDocument {
  const throttles = (sketch.throttles ?? ['1 north 8', '2 north 8', '3 south 8']).map(words);
  const blocks = sketch.blocks.map(words).map(([id, edge, source]) => ({
    id,
    name: id,
    source: sourceOf(source ?? ''),
    feeders: [{ edge }],
  }));
  const toggles = [
    ...new Set(blocks.flatMap(({ source }) => Object.values({ ...(source as { toggle?: string }) }))),
  ].filter((id) => id.startsWith('H'));
  const trains = (sketch.trains ?? ['t1 900 3', 't2 600 2', 't3 400 2']).map(words);
  return railroadDocument.parse({
    format: 'cabward-railroad/1',
    name: sketch.name,
    scaleRatio: 48,
    system: 'three-rail-ac',
    nodes: nodesOf(sketch),
    edges: sketch.edges
      .map(words)
      .map(([id, a, b, length]) => ({ id, between: [a, b], length: Number(length) })),
    supplies: [...new Set(throttles.map((parts) => word(parts, 1)))].map((id) => ({
      id,
      name: id,
      ratedVa: 108,
      maxVolts: 18,
      impedanceOhms: 0.2,
      breakerAmps: 10,
    })),
    throttles: throttles.map(([id, supply, maxAmps]) => ({
      id,
      name: `Cab ${id}`,
      supply,
      maxAmps: Number(maxAmps),
    })),
    selectors: sketch.dials.map(words).map(([head, ...positions]) => ({
      id: (head ?? '').replace(/[~^]/g, ''),
      name: head,
      positions: positions.map((position) => (position === '-' ? null : position)),
      stops: !head?.includes('~'),
      contacts: head?.includes('^') ? 'make-before-break' : 'break-before-make',
      contactAmps: 6,
    })),
    toggles: toggles.map((id) => ({ id, name: id })),
    blocks,
    trains: trains.map(([id, length, amps]) => ({
      id,
      name: id,
      length: Number(length),
      amps: Number(amps),
    })),
    places: (sketch.places ?? []).map(words).map(([id, ...at], order) => ({
      id,
      name: id,
      order,
      at: at.map((spot) => ({ edge: spot.split(':')[0], toward: spot.split(':')[1] })),
    })),
    settings: [
      {
        id: 'set1',
        name: 'All to one',
        selectors: Object.fromEntries(
          sketch.dials.map((dial) => [word(words(dial), 0).replace(/[~^]/g, ''), '1']),
        ),
        turnouts: Object.fromEntries(
          (sketch.turnouts ?? []).map((text) => [word(words(text), 0), 'reverse']),
        ),
        toggles: Object.fromEntries(toggles.map((id) => [id, true])),
      },
    ],
  });
}

export const HAND_RAILROADS: readonly RailroadDocument[] = [
  drawn({
    name: 'passing siding',
    edges: [
      'e1 n1 g1 1800',
      'e2 g1 T1 300',
      'e3 T1 T2 2400',
      'e4 T1 g2 250',
      'e5 g2 g3 2000',
      'e6 g3 T2 250',
      'e7 T2 g4 300',
      'e8 g4 n2 1800',
    ],
    turnouts: ['T1 e2 e3 e4', 'T2 e7 e3 e6'],
    blocks: ['B1 e1 K1', 'B2 e3 K2', 'B3 e5 K3', 'B4 e8 K4'],
    dials: ['K1 off 1 2 3', 'K2~ off 1 2 3', 'K3^ off 2 1 3', 'K4 off 1 - 3'],
    places: ['west e1:n1', 'middle e5:g3 e7:g4'],
  }),
  drawn({
    name: 'balloon with a spring turnout',
    edges: [
      'e1 n1 g1 1500',
      'e2 g1 g2 1500',
      'e3 g2 T1 300',
      'e4 T1 g3 900',
      'e5 g3 g4 1500',
      'e6 g4 T1 900',
    ],
    turnouts: ['T1 e3 e4 e6 !'],
    blocks: ['B1 e1 K1', 'B2 e2 K2', 'B3 e3 K3', 'B4 e5 K4'],
    dials: ['K1 off 1 2 3', 'K2 1 off 2', 'K3 off 1 2', 'K4~^ off 2 1 3'],
  }),
  drawn({
    name: 'yard ladder with holding sections',
    edges: [
      'e1 n1 g1 1500',
      'e2 g1 T1 400',
      'e3 T1 g2 300',
      'e4 g2 n2 1000',
      'e5 T1 T2 300',
      'e6 T2 g3 300',
      'e7 g3 n3 1000',
      'e8 T2 g4 300',
      'e9 g4 n4 1200',
    ],
    turnouts: ['T1 e2 e3 e5', 'T2 e5 e6 e8'],
    blocks: ['B1 e1 K1', 'B2 e2 K2', 'B3 e4 H1<B2', 'B4 e7 H2<B2', 'B5 e9 K3'],
    dials: ['K1 off 1 2 3', 'K2 off 1 2 3', 'K3~ off 1 2'],
    places: ['yard e4:n2 e7:n3 e9:n4'],
  }),
  drawn({
    name: 'nested toggles on a stub',
    edges: ['e1 n1 g1 1500', 'e2 g1 g2 1000', 'e3 g2 g3 800', 'e4 g3 n2 800'],
    blocks: ['B1 e1 K1', 'B2 e2 K2', 'B3 e3 H1<B2', 'B4 e4 H2<B3'],
    dials: ['K1 off 1 2 3', 'K2^ off 1 2 3'],
  }),
  drawn({
    name: 'half wired line',
    edges: ['e1 n1 g1 1200', 'e2 g1 g2 1200', 'e3 g2 g3 1200', 'e4 g3 g4 1200', 'e5 g4 n2 1200'],
    blocks: ['B1 e1 K1', 'B2 e2 =2', 'B3 e3 K3', 'B4 e4 =3', 'B5 e5 K5'],
    dials: ['K1 off 1 2 3', 'K3~ off 1 2 3', 'K5 off 3 1'],
  }),
  drawn({
    name: 'insulated crossing',
    edges: [
      'e1 n1 g1 1200',
      'e2 g1 X1 400',
      'e3 X1 g2 400',
      'e4 g2 n2 1200',
      'e5 n3 g3 1200',
      'e6 g3 X1 400',
      'e7 X1 g4 400',
      'e8 g4 n4 1200',
    ],
    crossings: ['X1 e2 e3 e6 e7 !'],
    blocks: ['B1 e1 K1', 'B2 e2 K2', 'B3 e4 K3', 'B4 e5 K4', 'B5 e6 K5', 'B6 e8 =2'],
    dials: ['K1 off 1 2', 'K2 off 1 2 3', 'K3 off 1 2', 'K4 off 1 2', 'K5~ off 1 2 3'],
  }),
  drawn({
    name: 'crossing with slips',
    edges: [
      'e1 n1 g1 1200',
      'e2 g1 X1 400',
      'e3 X1 g2 400',
      'e4 g2 n2 1200',
      'e5 n3 g3 1200',
      'e6 g3 X1 400',
      'e7 X1 g4 400',
      'e8 g4 n4 1200',
    ],
    crossings: ['X1 e2 e3 e6 e7 + e2 e7 + e6 e3'],
    blocks: ['B1 e1 K1', 'B2 e2 K2', 'B3 e4 K3', 'B4 e5 K4', 'B6 e8 K6'],
    dials: ['K1 off 1 2', 'K2 off 1 2 3', 'K3 off 1 2', 'K4 off 1 2', 'K6~ off 1 2 3'],
  }),
  drawn({
    name: 'oval and a straight-wired spur',
    edges: [
      'e1 g1 g2 1500',
      'e2 g2 T1 700',
      'e3 T1 g3 1500',
      'e4 g3 g1 1500',
      'e5 T1 g4 900',
      'e6 g4 n1 1500',
    ],
    turnouts: ['T1 e2 e3 e5'],
    blocks: ['B1 e1 K1', 'B2 e2 K2', 'B3 e4 K3', 'B4 e6 =1'],
    dials: ['K1 off 1 2 3', 'K2~ off 1 2 3', 'K3^ off 2 3 1'],
  }),
];
