/** The track plan on one page, in one ink: blocks by the kind of their line and their number, gaps as cuts with their names. */
import { useMemo } from 'react';
import { blockMarks } from '../../../shared-model/railroad/block-marks.ts';
import { planStyles } from '../../../shared-model/railroad/notebook/plan-styles.ts';
import type { Railroad } from '../../../shared-model/railroad/railroad.ts';
import { boxAround, type PlacedLabel, placeLabels } from '../../board/label-places.ts';
import { aroundSpot } from '../../board/label-wishes.ts';
import { lineLength, linePath, type Point, pointAlong } from '../../board/polyline.ts';
import { trackDrawing } from '../../board/track-drawing.ts';
import { wordsPx } from '../../theme/letter-widths.ts';

/** Sizes in thousandths of the plan's width, so that a wide railroad and a small one are printed alike. */
const WIDTH = 1000;
const MARGIN = 24;
const LETTER = 13;
/** The plan is stretched upwards, since paper is higher than boards are, but not beyond what a page holds. */
const STRETCH = 1.6;
const LEAST_ROW = 26;
const MOST_HEIGHT = 1000;
/** Half of what is drawn of a node or a line, with a little air. */
const NODE = 9;
const CLEARANCE = 4;

interface PlanScale {
  readonly height: number;
  readonly at: (point: Point) => Point;
}

function planScale(bounds: ReturnType<typeof trackDrawing>['bounds']): PlanScale {
  const across = (WIDTH - 2 * MARGIN) / Math.max(1, bounds.right - bounds.left);
  const rows = bounds.bottom - bounds.top;
  const up = Math.min(Math.max(across * STRETCH, LEAST_ROW), (MOST_HEIGHT - 2 * MARGIN) / Math.max(1, rows));
  return {
    height: rows * up + 2 * MARGIN + LETTER * 3,
    at: ([x, y]) => [MARGIN + (x - bounds.left) * across, MARGIN + LETTER + (y - bounds.top) * up],
  };
}

interface Badge {
  readonly id: string;
  readonly mark: string;
  readonly spot: Point;
  readonly half: number;
}

interface PlanNames {
  readonly railroad: Railroad;
  readonly scale: PlanScale;
  readonly lines: ReadonlyMap<string, readonly Point[]>;
  readonly badges: readonly Badge[];
  readonly feeders: readonly Point[];
}

/** A spot for the id of every node but a joint, beside it and off the track; one drawn twice is named twice. */
function planNames({ railroad, scale, lines, badges, feeders }: PlanNames): readonly PlacedLabel[] {
  const spots = railroad.document.nodes.flatMap(({ id, kind, at, alsoAt }) =>
    kind === 'joint'
      ? []
      : [at, ...(alsoAt === undefined ? [] : [alsoAt])].map((spot) => ({ id, spot: scale.at(spot) })),
  );
  return placeLabels(
    spots.map(({ id, spot }, index) => ({
      key: `${id} ${index}`,
      words: [id],
      needed: true,
      candidates: aroundSpot(spot, NODE, NODE),
    })),
    {
      tracks: [...lines.values()],
      clearance: CLEARANCE,
      taken: [
        ...badges.map(({ spot, half }) => boxAround(spot, 2 * half, 2 * LETTER)),
        ...feeders.map(([x, y]) => boxAround([x, y + 5], 10, 10)),
        ...spots.map(({ spot }) => boxAround(spot, NODE, NODE)),
      ],
      within: { left: 0, top: 0, right: WIDTH, bottom: scale.height },
      widthOf: (words) => wordsPx(words, LETTER) + 2,
      height: LETTER,
    },
  );
}

export function TrackPlan({ railroad }: { readonly railroad: Railroad }) {
  const { document } = railroad;
  const drawing = useMemo(() => trackDrawing(railroad), [railroad]);
  const styles = planStyles(railroad);
  const marks = blockMarks(document);
  const scale = planScale(drawing.bounds);
  const { height, at } = scale;
  const lines = new Map([...drawing.lines].map(([edge, line]) => [edge, line.map(at)]));
  const feeders = document.blocks.flatMap((block) =>
    block.feeders.flatMap(({ edge }): Point[] => {
      const line = lines.get(edge) ?? [];
      return line.length < 2 ? [] : [pointAlong(line, lineLength(line) / 4).at];
    }),
  );
  const badges = document.blocks.flatMap(({ id }): Badge[] => {
    const edges = [...(railroad.edgesOfBlock.get(id) ?? [])];
    const [longest] = edges
      .map((edge) => lines.get(edge) ?? [])
      .sort((one, other) => lineLength(other) - lineLength(one));
    if (longest === undefined || longest.length < 2) return [];
    const mark = marks.get(id) ?? id;
    const half = Math.max(LETTER, mark.length * LETTER * 0.42 + 4);
    return [{ id, mark, half, spot: pointAlong(longest, lineLength(longest) / 2).at }];
  });
  const names = planNames({ railroad, scale, lines, badges, feeders });
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
      {feeders.map(([x, y], index) => (
        // biome-ignore lint/suspicious/noArrayIndexKey: two feeders may end on one spot
        <path key={index} className="plan-feeder" d={`M${x} ${y}l-5 10h10z`} />
      ))}
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
            </g>
          );
        });
      })}
      {names.map(({ key, words, middle: [x, y] }) => (
        <text
          key={key}
          className="plan-name"
          x={x}
          y={y + LETTER * 0.36}
          fontSize={LETTER}
          textAnchor="middle"
        >
          {words}
        </text>
      ))}
      {badges.map(({ id, mark, half, spot: [x, y] }) => (
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
      ))}
    </svg>
  );
}
