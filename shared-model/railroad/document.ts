/**
 * The railroad document, `cabward-railroad/1`: one schema is the type, the parser and (docs/railroad.schema.json) the published schema.
 * Lengths are millimetres, currents amperes, volts RMS. Coordinates are for drawing alone; nothing computes with them.
 */
import {
  blockId,
  edgeId,
  nodeId,
  placeId,
  selectorId,
  settingId,
  supplyId,
  throttleId,
  toggleId,
  trainId,
} from '../ids.ts';
import { z } from '../zod.ts';

const point = z.tuple([z.number(), z.number()]);
const name = z.string().min(1, 'expected a name of at least one character').max(120);
const positive = z.number().positive();
const lengthMm = positive.max(10_000_000, 'expected a length of at most 10 km, in millimetres');

const drawn = { at: point, alsoAt: point.optional() };
const plainNode = (kind: 'end' | 'joint' | 'gap') =>
  z.strictObject({ id: nodeId, kind: z.literal(kind), ...drawn });

const turnoutNode = z.strictObject({
  id: nodeId,
  kind: z.literal('turnout'),
  ...drawn,
  trunk: edgeId,
  normal: edgeId,
  reverse: edgeId,
  selfLining: z.boolean().optional(),
});

const edgePair = z.tuple([edgeId, edgeId]);
const crossingNode = z.strictObject({
  id: nodeId,
  kind: z.literal('crossing'),
  ...drawn,
  ways: z.tuple([edgePair, edgePair]),
  insulated: z.boolean().default(false),
  slips: z.array(edgePair).min(1).max(2).optional(),
});

const node = z.discriminatedUnion('kind', [
  plainNode('end'),
  plainNode('joint'),
  plainNode('gap'),
  turnoutNode,
  crossingNode,
]);

const edge = z.strictObject({
  id: edgeId,
  between: z.tuple([nodeId, nodeId]).refine(([a, b]) => a !== b, 'expected two different nodes'),
  length: lengthMm,
  name: name.optional(),
  shape: z.array(point).optional(),
});

export const WAVES = ['sine', 'chopped', 'dc', 'unknown'] as const;
export const BREAKER_KINDS = ['thermal', 'magnetic', 'electronic', 'fuse', 'unknown'] as const;
export const USES = ['track', 'accessory'] as const;
const supply = z.strictObject({
  id: supplyId,
  name,
  ratedVa: positive,
  /** true: only the input was known, `ratedVa` is two thirds of it. */
  estimated: z.boolean().optional(),
  maxVolts: positive,
  impedanceOhms: z.number().nonnegative(),
  breakerAmps: positive,
  wave: z.enum(WAVES).optional(),
  breakerKind: z.enum(BREAKER_KINDS).optional(),
  use: z.enum(USES).optional(),
  /** Two-rail: its outputs have no common with those of other supplies. */
  isolated: z.boolean().optional(),
});

const throttle = z.strictObject({
  id: throttleId.refine(
    (id) => id !== 'off',
    'expected an id other than "off", which is a selector position',
  ),
  name,
  supply: supplyId,
  maxAmps: positive,
  breakerAmps: positive.optional(),
});

const panelSpot = z.tuple([z.number(), z.number()]);
const selector = z.strictObject({
  id: selectorId,
  name,
  /** In the order on the dial: a throttle, "off", or null where nothing is wired. */
  positions: z
    .array(
      z.union(
        [z.literal('off'), throttleId, z.null()],
        'expected a throttle id, "off", or null where nothing is wired',
      ),
    )
    .min(1, 'expected a dial of at least one position'),
  stops: z.boolean(),
  contacts: z.enum(['break-before-make', 'make-before-break', 'unknown']).optional(),
  contactAmps: positive,
  at: panelSpot.optional(),
});

const toggle = z.strictObject({ id: toggleId, name, at: panelSpot.optional() });

const wirePiece = z.strictObject({ awg: z.number().int().min(-3).max(40), run: lengthMm });
const feeder = z.strictObject({
  edge: edgeId,
  wire: z.union([wirePiece, z.array(wirePiece).min(1)]).optional(),
  terminal: z.string().max(40).optional(),
  route: z.string().max(80).optional(),
});

const source = z.union(
  [
    z.strictObject({ selector: selectorId }),
    z.strictObject({ throttle: throttleId }),
    z.strictObject({ toggle: toggleId, from: blockId }),
  ],
  'expected one source: {"selector": id}, {"throttle": id} or {"toggle": id, "from": block id}',
);
const block = z.strictObject({ id: blockId, name, source, feeders: z.array(feeder) });

const train = z.strictObject({
  id: trainId,
  name,
  length: lengthMm,
  amps: z.number().nonnegative(),
  stallAmps: positive.optional(),
  reverseUnit: z.enum(['sequence', 'pulse', 'locked', 'unknown']).optional(),
});

const place = z.strictObject({
  id: placeId,
  name,
  /** Order along the railroad; it gives the train sheet its direction. */
  order: z.number(),
  at: z.array(z.strictObject({ edge: edgeId, toward: nodeId })),
});

export const turnoutPosition = z.enum(['normal', 'reverse']);
export type TurnoutPosition = z.infer<typeof turnoutPosition>;

const setting = z.strictObject({
  id: settingId,
  name,
  selectors: z.record(selectorId, z.union([z.literal('off'), throttleId])),
  turnouts: z.record(nodeId, turnoutPosition),
  toggles: z.record(toggleId, z.boolean()),
});

/** The collections of a document whose things have an id. */
export const LISTS = [
  'nodes',
  'edges',
  'supplies',
  'throttles',
  'selectors',
  'toggles',
  'blocks',
  'trains',
  'places',
  'settings',
] as const;

export const RAILROAD_FORMAT = 'cabward-railroad/1';

export const railroadDocument = z
  .strictObject({
    format: z.literal(RAILROAD_FORMAT),
    name,
    scaleRatio: positive,
    system: z.enum(['three-rail-ac', 'two-rail-dc']),
    nodes: z.array(node),
    edges: z.array(edge),
    supplies: z.array(supply),
    throttles: z.array(throttle),
    selectors: z.array(selector),
    toggles: z.array(toggle),
    blocks: z.array(block),
    commonBus: wirePiece.optional(),
    railOhmsPerMetre: z.number().nonnegative().optional(),
    masterSwitch: z.string().min(1).max(200).optional(),
    trains: z.array(train),
    places: z.array(place),
    settings: z.array(setting),
  })
  .superRefine((document, context) => {
    const firstUse = new Map<string, string>();
    for (const list of LISTS) {
      document[list].forEach((thing, index) => {
        const used = firstUse.get(thing.id);
        if (used === undefined) firstUse.set(thing.id, `${list}[${index}]`);
        else
          context.addIssue({
            code: 'custom',
            path: [list, index, 'id'],
            message: `expected an id used once, but "${thing.id}" is also the id of ${used}`,
          });
      });
    }
  });

export type RailroadDocument = z.infer<typeof railroadDocument>;
export type TrackNode = RailroadDocument['nodes'][number];
export type TurnoutNode = Extract<TrackNode, { kind: 'turnout' }>;
export type CrossingNode = Extract<TrackNode, { kind: 'crossing' }>;
export type TrackEdge = RailroadDocument['edges'][number];
export type Supply = RailroadDocument['supplies'][number];
export type Throttle = RailroadDocument['throttles'][number];
export type Selector = RailroadDocument['selectors'][number];
export type Toggle = RailroadDocument['toggles'][number];
export type Block = RailroadDocument['blocks'][number];
export type Train = RailroadDocument['trains'][number];
export type Place = RailroadDocument['places'][number];
export type Setting = RailroadDocument['settings'][number];
