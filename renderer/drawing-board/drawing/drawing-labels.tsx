/** The names on the drawing. They find their spots after the track is drawn, so that drawing never waits for them. */
import { memo, useEffect, useMemo, useRef } from 'react';
import type { Railroad } from '../../../shared-model/railroad/railroad.ts';
import { useLetterSizes } from '../../theme/use-letter-sizes.ts';
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
}

function DrawnLabels({ railroad, scale }: DrawingLabelsProps) {
  const { desk, fine } = useLetterSizes();
  const last = useRef<PlacedNames | null>(null);
  const spots = useMemo(() => {
    const lines = pixelLines(railroad, scale);
    const nodes = nodeSpots(railroad, lines, scale);
    const before = last.current?.scale === scale ? last.current : null;
    return labelSpots(railroad, sectionLooks(railroad), lines, nodes, { desk, fine }, before);
  }, [railroad, scale, desk, fine]);
  useEffect(() => {
    last.current = { railroad, scale, spots };
  }, [railroad, scale, spots]);
  return spots.map(({ key, words, state, hue, middle }) => (
    <Label key={key} words={words} state={state} hue={hue} x={middle[0]} y={middle[1]} />
  ));
}

export const DrawingLabels = memo(DrawnLabels);
