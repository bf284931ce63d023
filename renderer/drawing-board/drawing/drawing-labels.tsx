/** The names on the drawing. They find their spots after the track is drawn, so that drawing never waits for them. */
import { memo, useEffect, useMemo, useRef } from 'react';
import type { Railroad } from '../../../shared-model/railroad/railroad.ts';
import { boxAround } from '../../board/label-places.ts';
import { useLetterSizes } from '../../theme/use-letter-sizes.ts';
import { MARK_HALF_PX, type MarkSpot } from '../findings/mark-spots.ts';
import { labelSpots, type PlacedNames, type SpotFor } from './label-spots.ts';
import { nodeSpots, pixelLines } from './pixel-track.ts';
import { sectionLooks } from './section-looks.ts';

const Label = memo(function DrawnLabel({
  words,
  state,
  hue,
  x,
  y,
}: Pick<SpotFor, 'words' | 'state' | 'hue'> & {
  readonly x: number;
  readonly y: number;
}) {
  return (
    <text className="drawing-label" data-state={state} data-hue={hue ?? undefined} x={x} y={y}>
      {words}
    </text>
  );
});

interface DrawingLabelsProps {
  readonly railroad: Railroad;
  /** Pixels to a square. */
  readonly scale: number;
  /** Marks of findings, which the names keep off. */
  readonly marks: readonly MarkSpot[];
}

function DrawnLabels({ railroad, scale, marks }: DrawingLabelsProps) {
  const { desk, fine } = useLetterSizes();
  const last = useRef<PlacedNames | null>(null);
  const placed = useMemo((): PlacedNames => {
    const lines = pixelLines(railroad, scale);
    const nodes = nodeSpots(railroad, lines, scale);
    const looks = sectionLooks(railroad);
    const before = last.current?.scale === scale ? last.current : null;
    const boxes = marks.map(({ at }) => boxAround(at, 2 * MARK_HALF_PX, 2 * MARK_HALF_PX));
    const spots = labelSpots(railroad, looks, lines, nodes, { desk, fine }, before, boxes);
    return { railroad, scale, looks, marks: boxes, spots };
  }, [railroad, scale, desk, fine, marks]);
  useEffect(() => {
    last.current = placed;
  }, [placed]);
  return placed.spots.map(({ key, words, state, hue, middle }) => (
    <Label key={key} words={words} state={state} hue={hue} x={middle[0]} y={middle[1]} />
  ));
}

export const DrawingLabels = memo(DrawnLabels);
