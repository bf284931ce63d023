/** The short mark of each block, as it is drawn on the board and typed into the entry line. */
import type { BlockId } from '../ids.ts';
import type { RailroadDocument } from './document.ts';

/**
 * The marks of a railroad's blocks.
 *
 * A block's mark is the number at the end of its id ("B12" is 12), without leading zeros; if two blocks would have the same one, or an
 * id has none, it is the whole id.
 *
 * @returns a mark for each block, no two alike
 */
export function blockMarks({ blocks }: Pick<RailroadDocument, 'blocks'>): ReadonlyMap<BlockId, string> {
  const known = marked.get(blocks);
  if (known !== undefined) return known;
  const marks = newMarks(blocks);
  marked.set(blocks, marks);
  return marks;
}

/** Every sentence about a block asks for its mark. */
const marked = new WeakMap<RailroadDocument['blocks'], ReadonlyMap<BlockId, string>>();

function newMarks(blocks: RailroadDocument['blocks']): ReadonlyMap<BlockId, string> {
  const numberOf = (id: BlockId): string | undefined => /[1-9]\d*$/.exec(id)?.[0];
  const ids = new Set<string>(blocks.map(({ id }) => id));
  const uses = new Map<string, number>();
  for (const { id } of blocks) {
    const number = numberOf(id);
    if (number !== undefined) uses.set(number, (uses.get(number) ?? 0) + 1);
  }
  return new Map(
    blocks.map(({ id }) => {
      const number = numberOf(id);
      const free = number !== undefined && uses.get(number) === 1 && (number === id || !ids.has(number));
      return [id, free ? number : id];
    }),
  );
}
