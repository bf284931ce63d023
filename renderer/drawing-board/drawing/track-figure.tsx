/** The track of the draft: sections in their hues, what is selected, the nodes on top; in pixels at one scale, about the sheet's origin. */
import { memo, useMemo } from 'react';
import type { Railroad } from '../../../shared-model/railroad/railroad.ts';
import { linePath } from '../../board/polyline.ts';
import { NodeMark } from './node-marks.tsx';
import { nodeSpots, pixelLines } from './pixel-track.ts';
import { type SectionLook, sectionLooks } from './section-looks.ts';

/** Drawn again only when its own path or state changes, not for another edit. */
const SectionLine = memo(function DrawnSection({
  path,
  state,
  hue,
}: Pick<SectionLook, 'state' | 'hue'> & { readonly path: string }) {
  return (
    <g className="drawing-section" data-state={state} data-hue={hue ?? undefined}>
      <path className="drawing-casing" d={path} />
      <path className="drawing-core" d={path} />
      {state === 'fed' ? null : <path className="drawing-inner" d={path} />}
    </g>
  );
});

interface TrackFigureProps {
  readonly railroad: Railroad;
  readonly selection: ReadonlySet<string>;
  /** Pixels to a square. */
  readonly scale: number;
}

function DrawnTrack({ railroad, selection, scale }: TrackFigureProps) {
  const lines = useMemo(() => pixelLines(railroad, scale), [railroad, scale]);
  const paths = useMemo(() => new Map([...lines].map(([edge, line]) => [edge, linePath(line)])), [lines]);
  const looks = useMemo(() => sectionLooks(railroad), [railroad]);
  const spots = useMemo(() => nodeSpots(railroad, lines, scale), [railroad, lines, scale]);
  const chosen = [...paths].filter(([edge]) => selection.has(edge));
  const twice = railroad.document.nodes.flatMap(({ id, at: [x, y], alsoAt }) =>
    alsoAt === undefined
      ? []
      : [{ id, d: `M${x * scale} ${y * scale}L${alsoAt[0] * scale} ${alsoAt[1] * scale}` }],
  );
  return (
    <>
      <path className="drawing-chosen-line" d={chosen.map(([, path]) => path).join('')} />
      {twice.map(({ id, d }) => (
        <path key={id} className="drawing-same-spot" d={d} />
      ))}
      {looks.map(({ key, edges, state, hue }) => (
        <SectionLine
          key={key}
          path={edges.map((edge) => paths.get(edge) ?? '').join('')}
          state={state}
          hue={hue}
        />
      ))}
      {spots.map(({ node: id, index, at, arms }) => {
        const node = railroad.nodes.get(id);
        return node === undefined ? null : (
          <NodeMark key={`${id} ${index}`} node={node} at={at} arms={arms} selected={selection.has(id)} />
        );
      })}
      {chosen.flatMap(([edge]) =>
        (railroad.edges.get(edge)?.shape ?? []).map(([x, y]) => (
          <rect
            key={`${edge} ${x} ${y}`}
            className="drawing-bend"
            x={x * scale - 6}
            y={y * scale - 6}
            width="12"
            height="12"
          />
        )),
      )}
    </>
  );
}

/** Drawn again only for another draft, selection or scale, not for a cursor that moves. */
export const TrackFigure = memo(DrawnTrack);
