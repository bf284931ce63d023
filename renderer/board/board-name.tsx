/** A name on the board: of a block (its mark in bold, a question mark where its position is presumed), a turnout or a place. */
import { memo } from 'react';
import { wordsPx } from '../theme/letter-widths.ts';
import { sameView } from './board-view.ts';
import type { BoardMark } from './board-words.ts';

interface BoardNameProps {
  readonly kind: 'block' | 'turnout' | 'place' | 'train' | 'barred';
  readonly words: string;
  readonly x: number;
  readonly y: number;
  readonly letterPx: number;
  /** Somebody's: it is said louder. */
  readonly owned?: boolean;
  readonly presumed?: boolean;
  /** Its train works in it as it likes: the name stands in brackets, as the limits bound it. */
  readonly limits?: boolean;
  readonly next?: boolean;
  readonly mark?: BoardMark | null;
  readonly hatch: string;
  /** The thing that pressing the name opens, if it may be pressed. */
  readonly opens?: string | undefined;
}

/** Half the height of the box round a marked name, and the width of its hatched end, in parts of the letter size. */
const BOX_HALF = 0.6;
const HATCHED = 0.55;
/** Pixels between the two outlines of a danger. */
const DOUBLED_PX = 4;

/** The outlined box with a hatched end that marks a name; doubled for a danger. */
function Marked({
  half,
  hatch,
  mark,
  ...at
}: Pick<BoardNameProps, 'x' | 'y' | 'letterPx' | 'hatch' | 'mark'> & { half: number }) {
  const end = at.letterPx * HATCHED;
  const box = { x: at.x - half - end, y: at.y - at.letterPx * BOX_HALF };
  const size = { width: 2 * half + end, height: 2 * at.letterPx * BOX_HALF };
  const outer = DOUBLED_PX;
  return (
    <>
      {mark === 'danger' ? (
        <rect
          className="board-name-box"
          data-marked
          x={box.x - outer}
          y={box.y - outer}
          width={size.width + 2 * outer}
          height={size.height + 2 * outer}
        />
      ) : null}
      <rect className="board-name-box" data-marked {...box} {...size} />
      <rect fill={hatch} {...box} width={end} height={size.height} />
    </>
  );
}

function DrawnName({ kind, words, x, y, letterPx, hatch, mark = null, ...now }: BoardNameProps) {
  const [number, ...rest] = words.split(' ');
  const inside = now.limits === true ? `[ ${words} ]` : words;
  const said = now.presumed === true ? `${inside} ?` : inside;
  const half = wordsPx(said, letterPx) / 2 + letterPx * 0.25;
  const height = letterPx * BOX_HALF;
  return (
    <g
      className="board-name"
      data-kind={kind}
      data-owned={now.owned || undefined}
      data-next={now.next || undefined}
      data-opens={now.opens}
    >
      {mark !== null || kind === 'barred' ? (
        <Marked x={x} y={y} half={half} letterPx={letterPx} hatch={hatch} mark={mark} />
      ) : null}
      {now.next ? (
        <rect className="board-name-box" x={x - half} y={y - height} width={2 * half} height={2 * height} />
      ) : null}
      <text x={x} y={y}>
        {now.limits === true ? <tspan className="board-name-mark">[ </tspan> : null}
        {kind === 'block' ? <tspan className="board-name-mark">{number}</tspan> : number}
        {rest.length === 0 ? null : ` ${rest.join(' ')}`}
        {now.limits === true ? <tspan className="board-name-mark"> ]</tspan> : null}
        {now.presumed === true ? <tspan className="board-name-presumed"> ?</tspan> : null}
      </text>
    </g>
  );
}

export const BoardName = memo(DrawnName, sameView);
