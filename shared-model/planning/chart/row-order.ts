/** The order of the rows: blocks that follow each other on a train's way lie beside each other as far as they can. */

/**
 * Lays the ways of all trains out along one axis. The longest way gives the order; what is new on the others goes beside the
 * neighbour that it has on its own way.
 *
 * @param ways the blocks of each train in the order of its way
 * @returns each block once
 */
export function rowsAlongTheWays<Id extends string>(ways: readonly (readonly Id[])[]): readonly Id[] {
  const rows: Id[] = [];
  const byLength = [...ways].sort((one, other) => new Set(other).size - new Set(one).size);
  for (const way of byLength) {
    way.forEach((block, index) => {
      if (rows.includes(block)) return;
      const known = (from: number, step: number): number => {
        for (let place = from; place >= 0 && place < way.length; place += step) {
          const row = rows.indexOf(way[place] as Id);
          if (row >= 0) return row;
        }
        return -1;
      };
      const before = known(index - 1, -1);
      const after = known(index + 1, 1);
      if (before < 0 && after < 0) rows.push(block);
      else if (before < 0) rows.splice(after, 0, block);
      else if (after < 0 || after >= before) rows.splice(before + 1, 0, block);
      else rows.splice(before, 0, block);
    });
  }
  return rows;
}
