/** Many phase checks combined: which supplies are in phase with which, by union-find with the angle carried along. */
import type { SupplyId } from '../ids.ts';
import { type Claim, contradictoryClaims } from './contradictory-checks.ts';
import { checkPhase, type PhaseQuestion } from './phase.ts';

/** One check between two supplies; without further knowledge it is judged as sine waves with the default tolerance. */
export interface PairCheck extends PhaseQuestion {
  readonly a: SupplyId;
  readonly b: SupplyId;
  /** A supply of the pair was replugged since: the check says nothing any more. */
  readonly lapsed?: boolean;
}

export const PHASE_RELATIONS = ['same', 'in-phase', 'reversed', 'different-legs', 'unknown'] as const;
export type PhaseRelation = (typeof PHASE_RELATIONS)[number];

/** What all checks together say. */
export interface PhaseGroups {
  readonly relation: (a: SupplyId, b: SupplyId) => PhaseRelation;
  /** Checks that contradict each other, one list for each knot of contradictory cycles; they count for nothing. */
  readonly contradictions: readonly (readonly PairCheck[])[];
}

type CheckClaim = Claim<PairCheck>;

const pairKey = (a: SupplyId, b: SupplyId): string => JSON.stringify(a < b ? [a, b] : [b, a]);

/** The checks that count: the latest of each pair (checks are in the order of measuring), if it has not lapsed and says something. */
function claimsOf(checks: readonly PairCheck[]): readonly CheckClaim[] {
  const latest = new Map(
    checks.filter((check) => check.a !== check.b).map((check) => [pairKey(check.a, check.b), check]),
  );
  return [...latest.values()].flatMap((check): CheckClaim[] => {
    if (check.lapsed === true) return [];
    const { verdict } = checkPhase(check);
    return verdict === 'unclear' || verdict === 'inconsistent'
      ? []
      : [{ a: check.a, b: check.b, verdict, check }];
  });
}

interface Standing {
  readonly leader: SupplyId;
  /** Against the leader: false in phase, true reversed. */
  readonly turned: boolean;
}

/** Where each supply stands in its group, following `in-phase` and `reversed` claims that do not contradict each other. */
function standings(claims: readonly CheckClaim[]): (supply: SupplyId) => Standing {
  const up = new Map<SupplyId, Standing>();
  const find = (supply: SupplyId): Standing => {
    let leader = supply;
    let turned = false;
    for (let step = up.get(leader); step !== undefined; step = up.get(leader)) {
      turned = turned !== step.turned;
      leader = step.leader;
    }
    return { leader, turned };
  };
  for (const { a, b, verdict } of claims) {
    if (verdict === 'different-legs') continue;
    const [rootA, rootB] = [find(a), find(b)];
    if (rootA.leader === rootB.leader) continue;
    const turned = (rootA.turned !== rootB.turned) !== (verdict === 'reversed');
    up.set(rootA.leader, { leader: rootB.leader, turned });
  }
  return find;
}

function combine(checks: readonly PairCheck[]): PhaseGroups {
  const claims = claimsOf(checks);
  const knots = contradictoryClaims(claims);
  const dropped = new Set(knots.flat());
  const sound = claims.filter((claim) => !dropped.has(claim));
  const stands = standings(sound);
  const otherLegs = new Set(
    sound
      .filter((claim) => claim.verdict === 'different-legs')
      .map((claim) => pairKey(stands(claim.a).leader, stands(claim.b).leader)),
  );
  return {
    relation(a, b) {
      if (a === b) return 'same';
      const [standA, standB] = [stands(a), stands(b)];
      if (standA.leader === standB.leader) return standA.turned === standB.turned ? 'in-phase' : 'reversed';
      return otherLegs.has(pairKey(standA.leader, standB.leader)) ? 'different-legs' : 'unknown';
    },
    contradictions: knots.map((knot) => knot.map((claim) => claim.check)),
  };
}

/** Answers by the list they were made from: the rules ask about the same list at every gap. */
const known = new WeakMap<readonly PairCheck[], PhaseGroups>();

/**
 * Combines phase checks.
 *
 * The latest check of a pair replaces the former one, also when it is unclear or inconsistent (then the pair itself is unknown).
 * In phase and reversed carry on (reversed twice is in phase); different legs once with these is different legs, twice is unknown.
 * Checks on a cycle that contradicts itself (an odd number of reversals, or different legs once) count for nothing and are named.
 *
 * @param checks in the order of measuring; readings in volts RMS
 */
export function phaseGroups(checks: readonly PairCheck[]): PhaseGroups {
  const before = known.get(checks);
  if (before !== undefined) return before;
  const groups = combine(checks);
  known.set(checks, groups);
  return groups;
}

/** What all checks together say of two supplies; see `phaseGroups`. */
export function phaseRelation(checks: readonly PairCheck[], a: SupplyId, b: SupplyId): PhaseRelation {
  return phaseGroups(checks).relation(a, b);
}

/** The checks that contradict each other; see `phaseGroups`. */
export function contradictions(checks: readonly PairCheck[]): readonly (readonly PairCheck[])[] {
  return phaseGroups(checks).contradictions;
}
