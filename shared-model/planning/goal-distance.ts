/** How far every spot of the track is from a block: what is left for a train of no length that nobody is in the way of. */
import { numberHeap } from '../number-heap.ts';
import { must, type TrackTable } from './track-table.ts';

/**
 * Least millimetres from the end of each spot to a far end of a block (Dijkstra's search, backwards from there).
 *
 * @param isOpen whether a block may be entered
 * @returns by spot; Infinity where no track leads there
 */
export function mmToBlock(
  { spots, ways, stops, blockOf, lengthMm }: TrackTable,
  goal: number,
  isOpen: (block: number) => boolean,
): Float64Array {
  const left = new Float64Array(spots.length).fill(Number.POSITIVE_INFINITY);
  const into: number[][] = spots.map(() => []);
  ways.forEach((list, from) => {
    for (const { to } of list) into[to]?.push(from);
  });
  const open = numberHeap();
  spots.forEach((_, spot) => {
    if (blockOf[spot] !== goal || stops[spot] !== true) return;
    left[spot] = 0;
    open.push(spot, 0);
  });
  for (let spot = open.pop(); spot >= 0; spot = open.pop()) {
    const block = must(blockOf[spot]);
    const mm = (left[spot] as number) + (lengthMm[spot] as number);
    for (const from of must(into[spot])) {
      const isEntered = block !== blockOf[from];
      if (block < 0 || mm >= (left[from] as number) || (isEntered && !isOpen(block))) continue;
      left[from] = mm;
      open.push(from, mm);
    }
  }
  return left;
}
