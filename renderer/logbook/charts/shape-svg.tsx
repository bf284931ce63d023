/** The shapes of a chart on the screen. */
import { BadgeMark } from '../../parts/badge.tsx';
import type { Drawing, Paint, Shape } from './drawing.ts';

const paint = (job: Paint | undefined): string => (job === undefined ? 'none' : `var(--${job})`);

function ShapeMark({ shape }: { readonly shape: Shape }) {
  switch (shape.kind) {
    case 'rect': {
      const { x, y, width, height, dash } = shape;
      return (
        <rect
          x={x}
          y={y}
          width={width}
          height={height}
          fill={paint(shape.fill)}
          stroke={paint(shape.stroke)}
          strokeDasharray={dash}
        />
      );
    }
    case 'line':
      return (
        <polyline
          points={shape.points.map((point) => point.join(',')).join(' ')}
          fill="none"
          stroke={paint(shape.stroke)}
          strokeWidth={shape.width}
          strokeDasharray={shape.dash}
        />
      );
    case 'text':
      return (
        <text
          x={shape.x}
          y={shape.y}
          fill={paint(shape.fill)}
          textAnchor={shape.anchor}
          fontWeight={shape.bold === true ? 700 : undefined}
        >
          {shape.says}
        </text>
      );
    case 'badge':
      return (
        <g transform={`translate(${shape.x} ${shape.y}) scale(${shape.scale})`}>
          <BadgeMark index={shape.index} mark={shape.mark} />
        </g>
      );
  }
}

interface ChartSvgProps {
  readonly drawing: Drawing;
  readonly title: string;
  /** What it shows, in a sentence or two, for those who do not see it. */
  readonly says: string;
}

export function ChartSvg({ drawing, title, says }: ChartSvgProps) {
  const { width, height, letterPx, shapes } = drawing;
  return (
    <svg
      className="chart"
      viewBox={`0 0 ${width} ${height}`}
      width={width}
      height={height}
      fontSize={letterPx}
      role="img"
      aria-label={`${title}. ${says}`}
    >
      {shapes.map((shape, index) => (
        // biome-ignore lint/suspicious/noArrayIndexKey: a shape is its place in the drawing
        <ShapeMark key={index} shape={shape} />
      ))}
    </svg>
  );
}
