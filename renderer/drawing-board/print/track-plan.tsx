/** The track plan on one page, in one ink: blocks by the kind of their line and their number, gaps as cuts with their names. */
import { useMemo } from 'react';
import { blockMarks } from '../../../shared-model/railroad/block-marks.ts';
import { planStyles } from '../../../shared-model/railroad/notebook/plan-styles.ts';
import type { Railroad } from '../../../shared-model/railroad/railroad.ts';
import { lineLength, linePath, type Point, pointAlong } from '../../board/polyline.ts';
import { trackDrawing } from '../../board/track-drawing.ts';

/** Sizes in thousandths of the plan's width, so that a wide railroad and a small one are printed alike. */
const WIDTH = 1000;
const MARGIN = 24;
const LETTER = 13;
/** The plan may be stretched upwards, but not beyond what a page holds. */
const LEAST_ROW = 26;
const MOST_HEIGHT = 620;

interface PlanScale {
  readonly height: number;
  readonly at: (point: Point) => Point;
}

function planScale(bounds: ReturnType<typeof trackDrawing>['bounds']): PlanScale {
  const across = (WIDTH - 2 * MARGIN) / Math.max(1, bounds.right - bounds.left);
  const rows = bounds.bottom - bounds.top;
  const up = Math.min(Math.max(across, LEAST_ROW), (MOST_HEIGHT - 2 * MARGIN) / Math.max(1, rows));
  return {
    height: rows * up + 2 * MARGIN + LETTER * 2,
    at: ([x, y]) => [MARGIN + (x - bounds.left) * across, MARGIN + LETTER + (y - bounds.top) * up],
  };
}

export function TrackPlan({ railroad }: { readonly railroad: Railroad }) {
  const { document } = railroad;
  const drawing = useMemo(() => trackDrawing(railroad), [railroad]);
  const styles = planStyles(railroad);
  const marks = blockMarks(document);
  const { height, at } = planScale(drawing.bounds);
  const lines = new Map([...drawing.lines].map(([edge, line]) => [edge, line.map(at)]));
  const feeders = document.blocks.flatMap((block) => block.feeders.map(({ edge }) => edge));
  const middles = document.blocks.flatMap(({ id }) => {
    const edges = [...(railroad.edgesOfBlock.get(id) ?? [])];
    const [longest] = edges
      .map((edge) => lines.get(edge) ?? [])
      .sort((one, other) => lineLength(other) - lineLength(one));
    if (longest === undefined || longest.length < 2) return [];
    return [{ id, spot: pointAlong(longest, lineLength(longest) / 2).at }];
  });
  return (
    <svg
      className="plan"
      viewBox={`0 0 ${WIDTH} ${height}`}
      role="img"
      aria-label={`Track plan of ${document.name}: ${document.blocks.length} blocks`}
    >
      {document.edges.map(({ id }) => {
        const block = railroad.blockOfEdge.get(id);
        const style = block === undefined ? 'dead' : String(styles.get(block) ?? 0);
        return <path key={id} className="plan-line" data-style={style} d={linePath(lines.get(id) ?? [])} />;
      })}
      {feeders.map((edge, index) => {
        const line = lines.get(edge) ?? [];
        if (line.length < 2) return null;
        const [x, y] = pointAlong(line, lineLength(line) / 4).at;
        // biome-ignore lint/suspicious/noArrayIndexKey: two feeders may end on one edge
        return <path key={`${edge} ${index}`} className="plan-feeder" d={`M${x} ${y}l-5 10h10z`} />;
      })}
      {document.nodes.map((node) => {
        const spots = node.alsoAt === undefined ? [node.at] : [node.at, node.alsoAt];
        return spots.map((spot, index) => {
          const [x, y] = at(spot);
          if (node.kind === 'joint') return null;
          return (
            // biome-ignore lint/suspicious/noArrayIndexKey: a node is drawn once or twice
            <g key={`${node.id} ${index}`}>
              {node.kind === 'gap' ? <path className="plan-gap" d={`M${x} ${y - 9}v18`} /> : null}
              {node.kind === 'end' ? <path className="plan-end" d={`M${x} ${y - 6}v12`} /> : null}
              <text
                className="plan-name"
                x={x}
                y={y + LETTER + 7}
                fontSize={LETTER * 0.85}
                textAnchor="middle"
              >
                {node.id}
              </text>
            </g>
          );
        });
      })}
      {middles.map(({ id, spot: [x, y] }) => {
        const mark = marks.get(id) ?? id;
        const half = Math.max(LETTER, mark.length * LETTER * 0.42 + 4);
        return (
          <g key={id}>
            <rect
              className="plan-badge"
              x={x - half}
              y={y - LETTER}
              width={2 * half}
              height={2 * LETTER}
              rx={LETTER}
            />
            <text className="plan-mark" x={x} y={y + LETTER * 0.36} fontSize={LETTER} textAnchor="middle">
              {mark}
            </text>
          </g>
        );
      })}
    </svg>
  );
}
