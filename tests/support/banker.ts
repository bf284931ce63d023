/** The banker's algorithm as the textbooks have it: processes that finish one after the other and give back what they hold. */

export interface Claim {
  readonly id: string;
  /** Of each kind: how much it holds, and how much it may hold at most. */
  readonly holds: readonly number[];
  readonly most: readonly number[];
  /** What it keeps when it has finished; nothing where it is left out. */
  readonly keeps?: readonly number[];
}

/** @returns an order in which all can finish, the first that can being taken each time; null where none is found */
export function bankersOrder(claims: readonly Claim[], free: readonly number[]): readonly string[] | null {
  const left = [...claims];
  const now = [...free];
  const order: string[] = [];
  while (left.length > 0) {
    const place = left.findIndex(({ holds, most }) =>
      most.every((units, kind) => units - (holds[kind] ?? 0) <= (now[kind] ?? 0)),
    );
    const [next] = place < 0 ? [] : left.splice(place, 1);
    if (next === undefined) return null;
    next.holds.forEach((units, kind) => {
      now[kind] = (now[kind] ?? 0) + units - (next.keeps?.[kind] ?? 0);
    });
    order.push(next.id);
  }
  return order;
}

/** Asks for more; null where there is not so much free, or more than was claimed. */
export function requested(
  claims: readonly Claim[],
  free: readonly number[],
  id: string,
  units: readonly number[],
): { readonly claims: readonly Claim[]; readonly free: readonly number[] } | null {
  const one = claims.find((claim) => claim.id === id);
  if (one === undefined || units.some((count, kind) => count > (free[kind] ?? 0))) return null;
  const holds = one.holds.map((count, kind) => count + (units[kind] ?? 0));
  if (holds.some((count, kind) => count > (one.most[kind] ?? 0))) return null;
  return {
    claims: claims.map((claim) => (claim === one ? { ...claim, holds } : claim)),
    free: free.map((count, kind) => count - (units[kind] ?? 0)),
  };
}
