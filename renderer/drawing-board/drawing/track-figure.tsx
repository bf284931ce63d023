/** The track of the draft: sections in their hues, what is selected, the nodes on top. It is in squares; how it is looked at is not its matter. */
import { memo, useMemo } from 'react';
import { lineLength, type Point, pointAlong } from '../../../shared-model/polyline.ts';
import type { TrackNode } from '../../../shared-model/railroad/document.ts';
import { endPoint } from '../../../shared-model/railroad/drawn-track.ts';
import type { Railroad } from '../../../shared-model/railroad/railroad.ts';
import { linePath } from '../../board/polyline.ts';
import { type TrackDrawing, trackDrawing } from '../../board/track-drawing.ts';
import { type Arm, NodeMark } from './node-marks.tsx';
import { type SectionLook, sectionLooks } from './section-looks.ts';

const SectionLine = memo(function DrawnSection({
  path,
  state,
  hue,
}: Pick<SectionLook, 'path' | 'state' | 'hue'>) {
  return (
    <g className="drawing-section" data-state={state} data-hue={hue ?? undefined}>
      <path className="drawing-casing" d={path} />
      <path className="drawing-core" d={path} />
      {state === 'fed' ? null : <path className="drawing-inner" d={path} />}
    </g>
  );
});

const SectionLabel = memo(function DrawnLabel({
  label,
  state,
  hue,
  x,
  y,
}: Pick<SectionLook, 'label' | 'state' | 'hue'> & {
  readonly x: number;
  readonly y: number;
}) {
  return (
    <g transform={`translate(${x} ${y})`}>
      <g className="drawing-mark drawing-label" data-state={state} data-hue={hue ?? undefined}>
        <text y="18">{label}</text>
      </g>
    </g>
  );
});

/** Where a node is drawn, with the edges that leave it there: two spots for one that is drawn twice. */
function spotsOf(railroad: Railroad, drawing: TrackDrawing, node: TrackNode) {
  const spots = new Map<string, { readonly at: Point; readonly arms: Arm[] }>();
  for (const id of railroad.edgesAt.get(node.id) ?? []) {
    const [edge, line] = [railroad.edges.get(id), drawing.lines.get(id)];
    if (edge === undefined || line === undefined) continue;
    const at = endPoint(railroad.edgesAt, node, id);
    const first = edge.between[0] === node.id;
    const { angle } = pointAlong(line, first ? 0 : lineLength(line));
    const spot = spots.get(at.join(' ')) ?? { at, arms: [] };
    spot.arms.push({ edge: id, direction: first ? angle : angle + Math.PI });
    spots.set(at.join(' '), spot);
  }
  if (spots.size === 0) spots.set('alone', { at: node.at, arms: [] });
  return [...spots.values()];
}

interface TrackFigureProps {
  readonly railroad: Railroad;
  readonly selection: ReadonlySet<string>;
}

function DrawnTrack({ railroad, selection }: TrackFigureProps) {
  const drawing = useMemo(() => trackDrawing(railroad), [railroad]);
  const sections = useMemo(() => sectionLooks(railroad, drawing.lines), [railroad, drawing]);
  const nodes = useMemo(
    () =>
      railroad.document.nodes.flatMap((node) =>
        spotsOf(railroad, drawing, node).map((spot, index) => ({ node, index, ...spot })),
      ),
    [railroad, drawing],
  );
  const chosen = [...drawing.lines].filter(([edge]) => selection.has(edge));
  const twice = railroad.document.nodes.flatMap(({ id, at, alsoAt }) =>
    alsoAt === undefined ? [] : [{ id, line: [at, alsoAt] }],
  );
  return (
    <>
      <path className="drawing-chosen-line" d={chosen.map(([, line]) => linePath(line)).join('')} />
      {twice.map(({ id, line }) => (
        <path key={id} className="drawing-same-spot" d={linePath(line)} />
      ))}
      {sections.map(({ key, path, state, hue }) => (
        <SectionLine key={key} path={path} state={state} hue={hue} />
      ))}
      {sections.map(({ key, label, state, hue, at }) => (
        <SectionLabel key={key} label={label} state={state} hue={hue} x={at[0]} y={at[1]} />
      ))}
      {nodes.map(({ node, index, at, arms }) => (
        <NodeMark
          key={`${node.id} ${index}`}
          node={node}
          at={at}
          arms={arms}
          selected={selection.has(node.id)}
        />
      ))}
      {chosen.flatMap(([edge]) =>
        (railroad.edges.get(edge)?.shape ?? []).map(([x, y]) => (
          <g key={`${edge} ${x} ${y}`} transform={`translate(${x} ${y})`}>
            <rect className="drawing-mark drawing-bend" x="-6" y="-6" width="12" height="12" />
          </g>
        )),
      )}
    </>
  );
}

/** Drawn again only for another draft or selection, not for a cursor that moves. */
export const TrackFigure = memo(DrawnTrack);
