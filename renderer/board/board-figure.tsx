/** The drawing of the board: what lies below first, names last. */
import { useMemo } from 'react';
import type { NodeId } from '../../shared-model/ids.ts';
import type { TrackNode, TurnoutPosition } from '../../shared-model/railroad/document.ts';
import type { Railroad } from '../../shared-model/railroad/railroad.ts';
import { HatchPattern } from '../parts/hatch-pattern.tsx';
import { bladesAt } from './blades.ts';
import { BlockLine } from './block-line.tsx';
import { blockPaths } from './block-paths.ts';
import type { BoardLayout } from './board-layout.ts';
import { BoardNames } from './board-names.tsx';
import type { BoardView } from './board-view.ts';
import { GapMark } from './gap-mark.tsx';
import { type DrawnTrain, movingNames, uncoveredBadges } from './moving-things.ts';
import type { Point } from './polyline.ts';
import type { Size } from './projection.ts';
import { TagMarks } from './tag-mark.tsx';
import { TrainCapsule } from './train-capsule.tsx';
import { TurnoutMark } from './turnout-mark.tsx';

interface BoardFigureProps {
  readonly railroad: Railroad;
  readonly layout: BoardLayout;
  readonly view: BoardView;
  readonly trains: readonly DrawnTrain[];
  readonly label: string;
  readonly size: Size;
  readonly pan: Point;
  /** Where the keyboard's one stop is. */
  readonly stop: string | undefined;
  readonly hatchId: string;
}

const hasLever = ({ node }: { readonly node: TrackNode }) =>
  node.kind === 'turnout' || node.kind === 'crossing';

export function BoardFigure(props: BoardFigureProps) {
  const { railroad, layout, view, trains, label, size, pan, stop, hatchId } = props;
  const { sizes } = layout;
  const paths = useMemo(() => blockPaths(railroad, layout), [railroad, layout]);
  const positions = new Map<NodeId, TurnoutPosition>(view.turnouts.map(({ id, position }) => [id, position]));
  const positionOf = (node: NodeId): TurnoutPosition => positions.get(node) ?? 'normal';
  const barred = new Set(view.barred.map(({ id }) => id));
  const beside = useMemo(() => movingNames(layout, trains, view.barred), [layout, trains, view.barred]);
  const hatch = `url(#${hatchId})`;
  const spots = new Map(
    [...layout.turnouts, ...layout.crossings].filter(hasLever).map((spot) => [spot.node.id, spot]),
  );

  return (
    // biome-ignore lint/a11y/useSemanticElements: an SVG has no fieldset
    <svg
      className="board-figure"
      width={size.width}
      height={size.height}
      viewBox={`0 0 ${size.width} ${size.height}`}
      role="group"
      aria-label={label}
      aria-roledescription="track diagram"
      fontSize={sizes.letter}
    >
      <defs>
        <HatchPattern id={hatchId} className="board-hatch" stripe={3.5} />
      </defs>
      <g transform={`translate(${pan[0]} ${pan[1]})`}>
        <path className="board-dead-track" d={paths.pathOf(null, positionOf)} />
        {view.blocks.map((block) => (
          <BlockLine
            key={block.id}
            view={block}
            path={paths.pathOf(block.id, positionOf)}
            reach={paths.reachOf(block.id)}
            badges={uncoveredBadges(
              paths.badgesOf(block.id),
              trains.filter((train) => train.view.blocks.includes(block.id)),
              sizes,
            )}
            badgePx={sizes.badge}
            hatch={hatch}
            isStop={block.id === stop}
          />
        ))}
        {layout.ends.map(({ id, at, angle }) => (
          <path
            key={id}
            className="board-end"
            d={`M0 ${-sizes.letter * 0.4}V${sizes.letter * 0.4}`}
            transform={`translate(${at[0]} ${at[1]}) rotate(${(angle * 180) / Math.PI})`}
          />
        ))}
        {layout.gaps.map((spot) => (
          <GapMark
            key={`${spot.id} ${spot.at[0]}`}
            spot={spot}
            barred={barred.has(spot.id)}
            letterPx={sizes.letter}
          />
        ))}
        {view.turnouts.map((turnout) => {
          const spot = spots.get(turnout.id);
          if (spot === undefined) return null;
          return (
            <TurnoutMark
              key={turnout.id}
              view={turnout}
              at={spot.at}
              blades={bladesAt(railroad, layout, spot.node, turnout.position)}
              letterPx={sizes.letter}
              isStop={turnout.id === stop}
            />
          );
        })}
        {trains.map((train) => (
          <TrainCapsule key={train.view.id} {...train} sizes={sizes} />
        ))}
        <TagMarks layout={layout} view={view} />
        <BoardNames railroad={railroad} layout={layout} view={view} beside={beside} hatch={hatch} />
      </g>
    </svg>
  );
}
