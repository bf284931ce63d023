/** A train on the track: a long capsule in its cab's hue, pointed at its front, with its badge and name. A cut: open boxes. */
import { memo } from 'react';
import { BadgeMark } from '../parts/badge.tsx';
import { cabLook } from '../theme/cabs.ts';
import { wordsPx } from '../theme/letter-widths.ts';
import type { BoardSizes } from './board-sizes.ts';
import { sameView, type TrainView } from './board-view.ts';
import { boxPaths, capsulePath, straightest } from './capsule.ts';
import type { Polyline } from './polyline.ts';

interface TrainCapsuleProps {
  readonly view: TrainView;
  readonly pieces: readonly Polyline[];
  readonly sizes: BoardSizes;
  /** Where on the drawing it is, is not known: drawn in the middle of its block, without a front. */
  readonly placeKnown: boolean;
}

/** Pixels of straight track that a train's badge and name need. */
export function namePx(view: Pick<TrainView, 'name' | 'cabIndex'>, sizes: BoardSizes): number {
  return wordsPx(view.name, sizes.letter) + (view.cabIndex === null ? 0 : sizes.badge) + sizes.letter * 0.4;
}

const DEGREES = 180 / Math.PI;
/** Turned so that words are never upside down. */
const upright = (degrees: number): number =>
  degrees > 90 ? degrees - 180 : degrees <= -90 ? degrees + 180 : degrees;

/** Badge and name along the longest straight part, if they fit there. */
function NameAlong({
  view,
  line,
  sizes,
}: {
  readonly view: TrainView;
  readonly line: Polyline;
  readonly sizes: BoardSizes;
}) {
  const { at, angle, length } = straightest(line);
  const need = namePx(view, sizes);
  if (length < need - sizes.letter * 0.6) return null;
  const words = wordsPx(view.name, sizes.letter);
  const start = -(need - sizes.letter * 0.4) / 2;
  const scale = (sizes.badge * 0.92) / 26;
  return (
    <g transform={`translate(${at[0]} ${at[1]}) rotate(${upright(angle * DEGREES)})`}>
      {view.cabIndex === null ? null : (
        <g
          className="board-badge-inside"
          transform={`translate(${start + sizes.badge / 2 - 2} 0) scale(${scale})`}
        >
          <BadgeMark index={view.cabIndex} mark={view.cabMark} />
        </g>
      )}
      <text className="board-train-name" x={start + (need - sizes.letter * 0.4) - words / 2}>
        {view.name}
      </text>
    </g>
  );
}

/** Whether a train's name finds room on its capsule; else it is written beside it. */
export function nameFits(view: TrainView, pieces: readonly Polyline[], sizes: BoardSizes): boolean {
  const line = pieces[0];
  return line !== undefined && straightest(line).length >= namePx(view, sizes) - sizes.letter * 0.6;
}

function DrawnTrain({ view, pieces, sizes, placeKnown }: TrainCapsuleProps) {
  const hue = view.cabIndex === null ? undefined : cabLook(view.cabIndex).hue + 1;
  const [first] = pieces;
  const half = sizes.capsule / 2;
  const path = view.isCut
    ? pieces.flatMap((line) => boxPaths(line, half * 0.8, sizes.letter * 1.6, 4)).join('')
    : pieces.map((line, i) => capsulePath(line, half, i === 0 && placeKnown)).join('');
  return (
    <g
      className={view.isCut ? 'board-cut' : 'board-train'}
      data-id={view.id}
      data-hue={hue}
      data-mark={view.mark ?? undefined}
      data-unknown={placeKnown ? undefined : true}
    >
      {view.mark === null ? null : <path className="board-train-marked" d={path} />}
      <path className="board-train-body" d={path} />
      {first === undefined || view.isCut ? null : <NameAlong view={view} line={first} sizes={sizes} />}
    </g>
  );
}

export const TrainCapsule = memo(
  DrawnTrain,
  ({ view, pieces, ...one }, { view: otherView, pieces: otherPieces, ...other }) =>
    sameView(view, otherView) && sameView(pieces, otherPieces) && sameView(one, other),
);
