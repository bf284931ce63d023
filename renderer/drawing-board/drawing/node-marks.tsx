/** The marks of nodes: the cut of a gap, the points of a turnout with its legs, the ways of a crossing. Drawn in pixels about their spot. */
import { memo } from 'react';
import type { Point } from '../../../shared-model/polyline.ts';
import type { TrackNode } from '../../../shared-model/railroad/document.ts';

/** An edge where it leaves the node. */
export interface Arm {
  readonly edge: string;
  /** In radians. */
  readonly direction: number;
}

interface NodeMarkProps {
  readonly node: TrackNode;
  readonly at: Point;
  readonly arms: readonly Arm[];
  readonly selected: boolean;
}

const LEG_PX = 22;
const SLIP_PX = 16;

const hundredth = (value: number): number => Math.round(value * 100) / 100;

/** A spot so far along and beside a direction from another one, as SVG writes it. */
const spotAt = ([x, y]: Point, direction: number, along: number, beside = 0): string => {
  const [cos, sin] = [Math.cos(direction), Math.sin(direction)];
  return `${hundredth(x + cos * along - sin * beside)} ${hundredth(y + sin * along + cos * beside)}`;
};

const away = (at: Point, arm: Arm | undefined, from: number, to: number): string =>
  arm === undefined ? '' : `M${spotAt(at, arm.direction, from)}L${spotAt(at, arm.direction, to)}`;

/** A line across the track, so far along it. */
const across = (at: Point, direction: number, along: number, half: number): string =>
  `M${spotAt(at, direction, along, -half)}L${spotAt(at, direction, along, half)}`;

function squareAbout({ at, half, className }: { at: Point; half: number; className: string }) {
  return <rect className={className} x={at[0] - half} y={at[1] - half} width={2 * half} height={2 * half} />;
}

function Inside({ node, at, arms }: Pick<NodeMarkProps, 'node' | 'at' | 'arms'>) {
  const armOf = (edge: string) => arms.find((arm) => arm.edge === edge);
  const [x, y] = at;
  const track = arms[0]?.direction ?? 0;
  switch (node.kind) {
    case 'end':
      return <path className="drawing-end" d={across(at, track, 0, 8)} />;
    case 'joint':
      return <circle className="drawing-joint" cx={x} cy={y} r="3.5" />;
    case 'gap':
      return (
        <>
          <path className="drawing-cut" d={across(at, track, 0, 6)} />
          <path className="drawing-lips" d={across(at, track, -4, 9) + across(at, track, 4, 9)} />
        </>
      );
    case 'turnout':
      return (
        <>
          <path
            className="drawing-leg"
            d={away(at, armOf(node.trunk), 5, LEG_PX) + away(at, armOf(node.normal), 5, LEG_PX)}
          />
          <path className="drawing-leg" data-reverse="true" d={away(at, armOf(node.reverse), 5, LEG_PX)} />
          <circle className="drawing-points" cx={x} cy={y} r="5" />
          {node.selfLining === true ? <circle className="drawing-self-lining" cx={x} cy={y} r="9" /> : null}
        </>
      );
    case 'crossing': {
      const [[a, b], [c, d]] = node.ways;
      return (
        <>
          <path className="drawing-leg" d={away(at, armOf(a), 0, LEG_PX) + away(at, armOf(b), 0, LEG_PX)} />
          <path
            className="drawing-leg"
            data-reverse="true"
            d={away(at, armOf(c), 4, LEG_PX) + away(at, armOf(d), 4, LEG_PX)}
          />
          {squareAbout({ at, half: 5, className: 'drawing-points' })}
          {node.insulated ? squareAbout({ at, half: 9, className: 'drawing-self-lining' }) : null}
          {(node.slips ?? []).map(([from, to]) => {
            const [one, other] = [armOf(from), armOf(to)];
            if (one === undefined || other === undefined) return null;
            return (
              <path
                key={`${from} ${to}`}
                className="drawing-slip"
                d={`M${spotAt(at, one.direction, SLIP_PX)}Q${x} ${y} ${spotAt(at, other.direction, SLIP_PX)}`}
              />
            );
          })}
        </>
      );
    }
  }
}

function DrawnNode({ node, at, arms, selected }: NodeMarkProps) {
  return (
    <g data-node={node.kind}>
      {selected ? <circle className="drawing-chosen" cx={at[0]} cy={at[1]} r="13" /> : null}
      <Inside node={node} at={at} arms={arms} />
    </g>
  );
}

const sameArms = (one: readonly Arm[], other: readonly Arm[]): boolean =>
  one.length === other.length &&
  one.every((arm, index) => arm.edge === other[index]?.edge && arm.direction === other[index]?.direction);

export const NodeMark = memo(
  DrawnNode,
  (one, other) =>
    one.node === other.node &&
    one.selected === other.selected &&
    one.at[0] === other.at[0] &&
    one.at[1] === other.at[1] &&
    sameArms(one.arms, other.arms),
);
