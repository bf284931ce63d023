/** The example made wrong on purpose: one damage for each code of the audit. */
import type { PairCheck } from '../../shared-model/power/phase-groups.ts';
import { type RailroadDocument, railroadDocument } from '../../shared-model/railroad/document.ts';
import type { FindingCode, Severity } from '../../shared-model/refusal.ts';
import { passingSidingExample as passing } from './example.ts';

export interface DamagedRailroad {
  readonly code: FindingCode;
  readonly severity: Severity;
  /** What was done to the example; parsed, so that it can come as a file. */
  readonly document: RailroadDocument;
  /** Phase checks that hold meanwhile. */
  readonly checks: readonly PairCheck[];
  /** Whether there is one sensible remedy: a button. */
  readonly mends: boolean;
  /** The finding of that code that the damage makes concerns all of these. */
  readonly about: readonly string[];
}

type Loose = { -readonly [Key in keyof RailroadDocument]?: unknown };

const changed = <Thing extends { readonly id: string }>(
  list: readonly Thing[],
  id: string,
  part: object,
): readonly object[] => list.map((thing) => (thing.id === id ? { ...thing, ...part } : thing));

const { nodes, edges, blocks, selectors, trains } = passing;
const feederOf = (block: string) => blocks.find(({ id }) => id === block)?.feeders[0];
const wired = (run: number, awg = 14): Loose => ({
  blocks: changed(blocks, 'B1', { feeders: [{ ...feederOf('B1'), wire: { awg, run } }] }),
});

/** The east end made a balloon: a train that runs into it comes back facing the other way. */
const balloon: Loose = {
  nodes: [
    ...nodes.map((node) =>
      node.id === 'n2'
        ? { id: 'T3', kind: 'turnout', at: node.at, trunk: 'e8', normal: 'e9', reverse: 'e10' }
        : node,
    ),
    { id: 'j1', kind: 'joint', at: [32, 2] },
  ],
  edges: [
    ...edges.map((edge) => (edge.id === 'e8' ? { ...edge, between: ['g4', 'T3'] } : edge)),
    { id: 'e9', between: ['T3', 'j1'], length: 1200, shape: [[30, 0]] },
    { id: 'e10', between: ['j1', 'T3'], length: 1200, shape: [[30, 4]] },
  ],
};

/** Track of its own that nothing leads to. */
const island: Loose = {
  nodes: [...nodes, { id: 'n3', kind: 'end', at: [4, 8] }, { id: 'n4', kind: 'end', at: [12, 8] }],
  edges: [...edges, { id: 'e9', between: ['n3', 'n4'], length: 2000 }],
  blocks: [...blocks, { id: 'B5', name: 'Island', source: { throttle: '1' }, feeders: [{ edge: 'e9' }] }],
};

const REVERSED: PairCheck = {
  a: 'north' as PairCheck['a'],
  b: 'south' as PairCheck['b'],
  voltsA: 18,
  voltsB: 18,
  voltsAcross: 36,
  tolerancePercent: 2,
};

interface Damage {
  readonly part?: Loose;
  readonly about: readonly string[];
  readonly mends?: boolean;
  readonly checks?: readonly PairCheck[];
}

const damaged = (
  code: FindingCode,
  severity: Severity,
  { part = {}, about, mends = true, checks = [] }: Damage,
): DamagedRailroad => ({
  code,
  severity,
  document: railroadDocument.parse({ ...passing, ...part }),
  checks,
  mends,
  about,
});

const trainsThat = (part: object): Loose => ({ trains: changed(trains, 't7', part) });
const withoutB3 = blocks.filter(({ id }) => id !== 'B3');

/** In the order of the design's table. */
export const DAMAGED: readonly DamagedRailroad[] = [
  damaged('broken-reference', 'error', {
    part: { nodes: changed(nodes, 'T1', { trunk: 'e99' }) },
    about: ['T1', 'e99'],
  }),
  damaged('two-sources', 'error', {
    part: { nodes: changed(nodes, 'g1', { kind: 'joint' }) },
    about: ['B1', 'B2'],
  }),
  damaged('dead-track', 'error', { part: { blocks: withoutB3 }, about: ['e5'] }),
  damaged('split-block', 'error', {
    part: {
      blocks: changed(withoutB3, 'B2', { feeders: [feederOf('B2'), { edge: 'e5' }] }),
    },
    about: ['B2', 'e3', 'e5'],
  }),
  damaged('feed-loop', 'error', {
    part: {
      toggles: [{ id: 'H1', name: 'Hold 1' }],
      blocks: changed(blocks, 'B3', { source: { toggle: 'H1', from: 'B3' } }),
    },
    about: ['H1', 'B3'],
  }),
  damaged('unreachable', 'warning', { part: island, about: ['e9'], mends: false }),
  damaged('unphased-gap', 'error', {
    about: ['g4', 'north', 'south'],
    mends: false,
    checks: [REVERSED],
  }),
  damaged('phase-unknown', 'warning', { about: ['g4', 'north', 'south'], mends: false }),
  damaged('reversing-section', 'error', {
    part: { ...balloon, system: 'two-rail-dc' },
    about: ['T3', 'e9', 'e10'],
    mends: false,
  }),
  damaged('short-block', 'warning', {
    part: trainsThat({ length: 3000 }),
    about: ['B3'],
    mends: false,
  }),
  damaged('overload', 'warning', { part: trainsThat({ amps: 9 }), about: ['1', 't7'], mends: false }),
  damaged('shorting-selector', 'error', {
    part: { selectors: changed(selectors, 'K1', { contacts: 'make-before-break' }) },
    about: ['K1', '1', '2'],
  }),
  damaged('shared-return', 'error', {
    part: { system: 'two-rail-dc' },
    about: ['north', 'south'],
    mends: false,
  }),
  damaged('undersized-wire', 'error', { part: wired(3600, 18), about: ['B1', 'e1'] }),
  damaged('voltage-drop', 'warning', { part: wired(60_000), about: ['B1', 'e1'] }),
  damaged('slow-trip', 'error', { part: wired(100_000), about: ['B1', 'e1'] }),
  damaged('one-cab-block', 'info', { about: ['B4'] }),
];
