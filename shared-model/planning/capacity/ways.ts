/** On how many cabs how many pairs of blocks are joined for one train alone: what a new selector brings even where no further train can move. */
import type { BlockId } from '../../ids.ts';
import { canFeed, must, type TrackTable } from '../track-table.ts';

/**
 * Counts (cab, block, other block) such that the cab can run a train from a gap or end of the one to the other without a change of
 * facing; trains are taken to be short.
 *
 * @param among the blocks that count, so that railroads with more blocks can be compared
 */
export function countWays(table: TrackTable, among: ReadonlySet<BlockId>): number {
  let ways = 0;
  for (const { id: cab } of table.railroad.document.throttles) {
    const open = table.blockOf.map((block) => block >= 0 && canFeed(table, block, cab));
    const pairs = new Set<number>();
    table.spots.forEach((_, start) => {
      if (table.stops[start] !== true || open[start] !== true) return;
      const from = must(table.blockOf[start]);
      if (!among.has(must(table.blocks[from]))) return;
      const seen = new Set([start]);
      for (const spot of seen)
        for (const { to } of must(table.ways[spot])) if (open[to] === true) seen.add(to);
      for (const spot of seen) {
        const block = must(table.blockOf[spot]);
        if (block !== from && table.stops[spot] === true && among.has(must(table.blocks[block])))
          pairs.add(from * table.blocks.length + block);
      }
    });
    ways += pairs.size;
  }
  return ways;
}
