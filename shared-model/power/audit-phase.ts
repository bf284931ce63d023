/** Audit of gaps whose two sides can be on two supplies at once: `unphased-gap` and `phase-unknown`. */
import type { BlockId, EdgeId, NodeId, SupplyId } from '../ids.ts';
import type { TrackNode } from '../railroad/document.ts';
import { feedOf, suppliesOf } from '../railroad/feed.ts';
import type { Railroad } from '../railroad/railroad.ts';
import type { Finding } from '../refusal.ts';
import { LEGS_REMEDY, REVERSED_REMEDY } from './phase.ts';
import { type PairCheck, type PhaseRelation, phaseGroups } from './phase-groups.ts';
import { PARALLEL_FORBIDDEN } from './supply-limits.ts';

/** The pairs of edges between which a train's pickups bridge a cut in the hot rail. */
function bridged(railroad: Railroad, node: TrackNode): readonly (readonly [EdgeId, EdgeId])[] {
  if (node.kind === 'gap') {
    const [one, other] = railroad.edgesAt.get(node.id) ?? [];
    return one === undefined || other === undefined ? [] : [[one, other]];
  }
  return node.kind === 'crossing' && node.insulated ? (node.slips ?? []) : [];
}

/** Pairs of different supplies that the two blocks can be on at the same time; none where one knob feeds both. */
function meetings(
  railroad: Railroad,
  one: BlockId,
  other: BlockId,
): readonly (readonly [SupplyId, SupplyId])[] {
  const [feedOne, feedOther] = [feedOf(railroad, one), feedOf(railroad, other)];
  if (feedOne === null || feedOther === null || feedOne.root === feedOther.root) return [];
  if (feedOne.selector !== null && feedOne.selector === feedOther.selector) return [];
  const order = railroad.document.supplies.map((supply) => supply.id);
  const pairs = suppliesOf(railroad, feedOne.throttles).flatMap((a) =>
    suppliesOf(railroad, feedOther.throttles)
      .filter((b) => a !== b)
      .map((b): [SupplyId, SupplyId] => (order.indexOf(a) < order.indexOf(b) ? [a, b] : [b, a])),
  );
  return pairs.filter(([a, b], index) => pairs.findIndex((pair) => pair[0] === a && pair[1] === b) === index);
}

/** One place where two supplies can meet under a train. */
export interface Meeting {
  readonly gap: NodeId;
  readonly blocks: readonly [BlockId, BlockId];
  readonly supplies: readonly [SupplyId, SupplyId];
}

/** Every gap (or slip over an insulated crossing) at which two supplies can meet, with each pair that can, in the file's order. */
export function meetingsOf(railroad: Railroad): readonly Meeting[] {
  const found = railroad.document.nodes.flatMap((node) =>
    bridged(railroad, node).flatMap(([edge, otherEdge]): Meeting[] => {
      const [one, other] = [railroad.blockOfEdge.get(edge), railroad.blockOfEdge.get(otherEdge)];
      if (one === undefined || other === undefined || one === other) return [];
      return meetings(railroad, one, other).map((supplies) => ({
        gap: node.id,
        blocks: [one, other],
        supplies,
      }));
    }),
  );
  const key = ({ gap, supplies }: Meeting): string => JSON.stringify([gap, ...supplies]);
  return [...new Map(found.map((meeting) => [key(meeting), meeting])).values()];
}

type Bad = Exclude<PhaseRelation, 'same' | 'in-phase'>;

const STANDS: Readonly<Record<Bad, string>> = {
  reversed: 'which are reversed: up to the sum of their volts shorts through a train that bridges it',
  'different-legs':
    'which are on different legs of the mains: far more than their volts shorts through a train that bridges it',
  unknown: 'and no valid phase check says whether these are in phase',
};
const REMEDIES: Readonly<Record<Bad, string>> = {
  reversed: REVERSED_REMEDY,
  'different-legs': LEGS_REMEDY,
  unknown: 'Make a phase check of the two supplies before a train crosses here.',
};

/**
 * Findings about phase. Direct current has none, so a two-rail railroad is not judged.
 *
 * @param checks in the order of measuring; none given: every meeting of two supplies is unknown
 */
export function auditPhase(railroad: Railroad, checks: readonly PairCheck[]): readonly Finding[] {
  if (railroad.document.system === 'two-rail-dc') return [];
  const groups = phaseGroups(checks);
  const contradicted = groups.contradictions.flat();
  return meetingsOf(railroad).flatMap(({ gap, blocks, supplies }): Finding[] => {
    const relation = groups.relation(...supplies);
    if (relation === 'same' || relation === 'in-phase') return [];
    const [one, other] = blocks.map((block) => railroad.blocks.get(block)?.name ?? block);
    const [a, b] = supplies.map((supply) => railroad.supplies.get(supply)?.name ?? supply);
    const torn = contradicted.some((check) => supplies.includes(check.a) || supplies.includes(check.b));
    const because =
      relation === 'unknown' && torn ? 'and their phase checks contradict each other' : STANDS[relation];
    return [
      {
        code: relation === 'unknown' ? 'phase-unknown' : 'unphased-gap',
        severity: relation === 'unknown' ? 'warning' : 'error',
        about: [gap, ...supplies],
        says: `The gap ${gap} between ${one} and ${other} can have ${a} on one side and ${b} on the other, ${because}.`,
        remedy: relation === 'unknown' ? REMEDIES.unknown : `${REMEDIES[relation]} ${PARALLEL_FORBIDDEN}`,
      },
    ];
  });
}
