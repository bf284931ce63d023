/** States that are to be looked at, by how far they seem from the goals: the newest of the nearest comes first. */
import type { Memory } from '../memory.ts';
import { intPages } from './int-pages.ts';

export interface OpenList {
  /** Puts a state in, each once, numbered as they come; false where there is no memory for it. */
  push(state: number, left: number): boolean;
  /** Takes one out; -1 where none is. */
  pop(): number;
}

const NONE = -1;
const FIRST_DISTANCES = 64;

/** @param memory what it has of it stays taken until whoever gave it takes it back */
export function openList(memory: Memory): OpenList {
  /** The newest state of each distance; the one under each state. */
  let newest = new Int32Array(0);
  const below = intPages(1, memory);
  let nearest = 0;
  const reach = (left: number): boolean => {
    if (left < newest.length) return true;
    const length = Math.max(FIRST_DISTANCES, newest.length * 2, left + 1);
    if (!memory.take(length * Int32Array.BYTES_PER_ELEMENT)) return false;
    const longer = new Int32Array(length).fill(NONE);
    longer.set(newest);
    memory.giveBack(newest.length * Int32Array.BYTES_PER_ELEMENT);
    newest = longer;
    return true;
  };
  return {
    push: (state, left) => {
      if (!reach(left) || !below.reach(state)) return false;
      below.set(state, 0, newest[left] as number);
      newest[left] = state;
      if (left < nearest) nearest = left;
      return true;
    },
    pop: () => {
      while (nearest < newest.length && newest[nearest] === NONE) nearest += 1;
      const state = newest[nearest] ?? NONE;
      if (state !== NONE) newest[nearest] = below.get(state, 0);
      return state;
    },
  };
}
