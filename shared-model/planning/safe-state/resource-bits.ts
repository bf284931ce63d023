/** Sets of resources as bits, one set after the other in a flat array, for the many times that a search asks whether two of them meet. */

export interface BitSets {
  readonly bits: Int32Array;
  /** Numbers that one set takes. */
  readonly words: number;
}

const BITS = 31;

/** Numbers that a set of so many resources takes. */
const wordsOf = (resources: number): number => Math.max(1, Math.ceil(resources / BITS));

export const bytesOfBitSets = (sets: number, resources: number): number =>
  sets * wordsOf(resources) * Int32Array.BYTES_PER_ELEMENT;

export function bitSets(lists: readonly (readonly number[])[], resources: number): BitSets {
  const words = wordsOf(resources);
  const bits = new Int32Array(lists.length * words);
  for (const [set, list] of lists.entries())
    for (const resource of list) {
      const word = set * words + Math.floor(resource / BITS);
      bits[word] = (bits[word] as number) | (1 << (resource % BITS));
    }
  return { bits, words };
}

/** Whether set i of the one and set j of the other have a resource in common; both are of the same railroad. */
export function meet({ bits, words }: BitSets, i: number, other: BitSets, j: number): boolean {
  for (let word = 0; word < words; word += 1)
    if (((bits[i * words + word] as number) & (other.bits[j * words + word] as number)) !== 0) return true;
  return false;
}
