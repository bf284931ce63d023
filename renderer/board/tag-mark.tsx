/** The mark of something that is out of service: a slashed square. Why, and who put it there, is in the words of the thing. */
import { memo } from 'react';
import { type BoardLayout, chainsOf } from './board-layout.ts';
import { type BlockView, type BoardView, sameView } from './board-view.ts';
import { lineLength, type Point, pointAlong } from './polyline.ts';

interface TagMarkProps {
  readonly x: number;
  readonly y: number;
  readonly letterPx: number;
}

function DrawnTag({ x, y, letterPx }: TagMarkProps) {
  const half = letterPx * 0.5;
  return (
    <g className="board-tag" transform={`translate(${x} ${y})`}>
      <rect x={-half} y={-half} width={2 * half} height={2 * half} />
      <path d={`M${-half} ${half}L${half} ${-half}`} />
    </g>
  );
}

const TagMark = memo(DrawnTag, sameView);

/** The tags of everything tagged: of a turnout beside its ring, of a block on its track, off the middle where a badge is. */
export function TagMarks({ layout, view }: { readonly layout: BoardLayout; readonly view: BoardView }) {
  const letterPx = layout.sizes.letter;
  const turnouts = new Map<string, Point>(
    [...layout.turnouts, ...layout.crossings].map(({ node, at: [x, y] }) => [
      node.id,
      [x, y + letterPx * 1.1],
    ]),
  );
  const spotOf = (id: BlockView['id']): Point | undefined => {
    const chain = chainsOf(layout, id).toSorted((a, b) => lineLength(b.line) - lineLength(a.line))[0];
    return chain === undefined ? undefined : pointAlong(chain.line, lineLength(chain.line) * 0.2).at;
  };
  const tagged: readonly { readonly id: string; readonly at: Point | undefined }[] = [
    ...view.blocks.filter((block) => block.tagged).map(({ id }) => ({ id, at: spotOf(id) })),
    ...view.turnouts.filter((turnout) => turnout.tagged).map(({ id }) => ({ id, at: turnouts.get(id) })),
  ];
  return tagged.map(({ id, at }) =>
    at === undefined ? null : <TagMark key={id} x={at[0]} y={at[1]} letterPx={letterPx} />,
  );
}
