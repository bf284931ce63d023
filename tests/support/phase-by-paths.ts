/** A second way to combine phase checks: every simple path and cycle of checks is walked. For the tests, since it is slow. */
import type { PhaseRelation } from '../../shared-model/power/phase-groups.ts';

export type Claimed = 'in-phase' | 'reversed' | 'different-legs';
/** One check that counts: the latest of its pair, with a verdict. */
export interface Edge {
  readonly a: string;
  readonly b: string;
  readonly verdict: Claimed;
}

/** Every simple path of edges from one supply to another, by plain search. */
function simplePaths(
  edges: readonly Edge[],
  from: string,
  to: string,
  seen: readonly string[] = [from],
): Edge[][] {
  if (from === to) return [[]];
  return edges.flatMap((edge) => {
    const next = edge.a === from ? edge.b : edge.b === from ? edge.a : null;
    if (next === null || seen.includes(next)) return [];
    return simplePaths(edges, next, to, [...seen, next]).map((rest) => [edge, ...rest]);
  });
}

function claimOf(path: readonly Edge[]): PhaseRelation {
  const legs = path.filter((edge) => edge.verdict === 'different-legs').length;
  if (legs > 0) return legs === 1 ? 'different-legs' : 'unknown';
  return path.filter((edge) => edge.verdict === 'reversed').length % 2 === 0 ? 'in-phase' : 'reversed';
}

/** The reference: an edge counts unless some cycle through it contradicts itself; then all simple paths that say something agree. */
export function relationByPaths(edges: readonly Edge[], a: string, b: string): PhaseRelation {
  const bad = new Set<Edge>();
  for (const edge of edges)
    for (const way of simplePaths(
      edges.filter((other) => other !== edge),
      edge.a,
      edge.b,
    )) {
      const around = claimOf([...way, edge]);
      if (around === 'reversed' || around === 'different-legs')
        for (const each of [...way, edge]) bad.add(each);
    }
  const sound = edges.filter((edge) => !bad.has(edge));
  const claims = new Set(
    simplePaths(sound, a, b)
      .map(claimOf)
      .filter((claim) => claim !== 'unknown'),
  );
  const [first] = claims;
  if (claims.size > 1) throw new Error('sound checks contradict each other');
  return first ?? 'unknown';
}
