/** Sets of resources as bits, thirty-one to a number, for the many times that a search asks whether two of them meet. */

export type Bits = Int32Array;

const BITS = 31;

export function makeBits(resources: readonly number[], count: number): Bits {
  const bits = new Int32Array(Math.max(1, Math.ceil(count / BITS)));
  for (const resource of resources) {
    const word = Math.floor(resource / BITS);
    bits[word] = (bits[word] ?? 0) | (1 << (resource % BITS));
  }
  return bits;
}

export function meet(one: Bits, other: Bits): boolean {
  for (let word = 0; word < one.length; word += 1)
    if (((one[word] as number) & (other[word] as number)) !== 0) return true;
  return false;
}
