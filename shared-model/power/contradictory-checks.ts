/**
 * Which phase checks lie on a cycle that contradicts itself.
 *
 * A cycle of in-phase and reversed checks contradicts itself when it has an odd number of reversals; one with a single different-legs check always does
 * (twice different legs may come to anything). In a part of the graph that no single supply parts, one bad cycle puts every check on a bad cycle,
 * so it is enough to judge these parts (the biconnected components) whole.
 */
import type { SupplyId } from '../ids.ts';

/** What one check says of its pair. */
export interface Claim<Check> {
  readonly a: SupplyId;
  readonly b: SupplyId;
  readonly verdict: 'in-phase' | 'reversed' | 'different-legs';
  readonly check: Check;
}

type AnyClaim = Claim<unknown>;

const other = (claim: AnyClaim, supply: SupplyId): SupplyId => (claim.a === supply ? claim.b : claim.a);

function claimsAt<Kind extends AnyClaim>(claims: readonly Kind[]): ReadonlyMap<SupplyId, readonly Kind[]> {
  const at = new Map<SupplyId, Kind[]>();
  for (const claim of claims)
    for (const supply of [claim.a, claim.b]) at.set(supply, [...(at.get(supply) ?? []), claim]);
  return at;
}

/** A number for each supply: the same for those that in-phase and reversed checks connect. */
function componentOf(claims: readonly AnyClaim[]): ReadonlyMap<SupplyId, number> {
  const at = claimsAt(claims.filter((claim) => claim.verdict !== 'different-legs'));
  const component = new Map<SupplyId, number>();
  for (const start of at.keys()) {
    if (component.has(start)) continue;
    const number = component.size;
    const waiting = [start];
    for (let supply = waiting.pop(); supply !== undefined; supply = waiting.pop()) {
      if (component.has(supply)) continue;
      component.set(supply, number);
      for (const claim of at.get(supply) ?? []) waiting.push(other(claim, supply));
    }
  }
  return component;
}

/** The biconnected components of the graph of claims, each as its claims (Hopcroft and Tarjan 1973). */
function biconnected<Kind extends AnyClaim>(claims: readonly Kind[]): readonly (readonly Kind[])[] {
  const at = claimsAt(claims);
  const depth = new Map<SupplyId, number>();
  const open: Kind[] = [];
  const parts: Kind[][] = [];
  /** Walks from a supply; returns the least depth that its tree reaches by a back edge. */
  const walk = (supply: SupplyId, here: number, by: Kind | undefined): number => {
    depth.set(supply, here);
    let least = here;
    for (const claim of at.get(supply) ?? []) {
      if (claim === by) continue;
      const next = other(claim, supply);
      const seen = depth.get(next);
      if (seen !== undefined) {
        if (seen < here) open.push(claim);
        least = Math.min(least, seen);
        continue;
      }
      const mark = open.push(claim) - 1;
      const reached = walk(next, here + 1, claim);
      if (reached >= here) parts.push(open.splice(mark));
      least = Math.min(least, reached);
    }
    return least;
  };
  for (const supply of at.keys()) if (!depth.has(supply)) walk(supply, 0, undefined);
  return parts;
}

/** Whether supplies can be marked in phase or reversed so that every claim holds; different legs inside a part never can. */
function agrees(part: readonly AnyClaim[]): boolean {
  if (part.some((claim) => claim.verdict === 'different-legs')) return false;
  const at = claimsAt(part);
  const turned = new Map<SupplyId, boolean>();
  const waiting: { readonly supply: SupplyId; readonly turned: boolean }[] = [];
  const first = part[0];
  if (first !== undefined) waiting.push({ supply: first.a, turned: false });
  for (let now = waiting.pop(); now !== undefined; now = waiting.pop()) {
    const before = turned.get(now.supply);
    if (before !== undefined) {
      if (before !== now.turned) return false;
      continue;
    }
    turned.set(now.supply, now.turned);
    for (const claim of at.get(now.supply) ?? []) {
      waiting.push({
        supply: other(claim, now.supply),
        turned: now.turned !== (claim.verdict === 'reversed'),
      });
    }
  }
  return true;
}

/**
 * The claims that lie on contradictory cycles, in knots that hang together.
 *
 * @param claims at most one for each pair
 * @returns no list for claims that agree; a different-legs claim counts only where its two supplies are tied by others as well
 */
export function contradictoryClaims<Kind extends AnyClaim>(
  claims: readonly Kind[],
): readonly (readonly Kind[])[] {
  const component = componentOf(claims);
  const closing = claims.filter(
    ({ a, b, verdict }) =>
      verdict !== 'different-legs' || (component.has(a) && component.get(a) === component.get(b)),
  );
  return biconnected(closing).filter((part) => !agrees(part));
}
