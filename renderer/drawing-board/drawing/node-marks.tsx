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

const away = (arm: Arm | undefined, from: number, to: number): string =>
  arm === undefined
    ? ''
    : `M${Math.cos(arm.direction) * from} ${Math.sin(arm.direction) * from}L${Math.cos(arm.direction) * to} ${Math.sin(arm.direction) * to}`;

function Inside({ node, arms }: Pick<NodeMarkProps, 'node' | 'arms'>) {
  const armOf = (edge: string) => arms.find((arm) => arm.edge === edge);
  const turn = `rotate(${((arms[0]?.direction ?? 0) * 180) / Math.PI})`;
  switch (node.kind) {
    case 'end':
      return <path className="drawing-end" d="M0 -8V8" transform={turn} />;
    case 'joint':
      return <circle className="drawing-joint" r="3.5" />;
    case 'gap':
      return (
        <g transform={turn}>
          <rect className="drawing-cut" x="-3" y="-6" width="6" height="12" />
          <path className="drawing-lips" d="M-4 -9V9M4 -9V9" />
        </g>
      );
    case 'turnout':
      return (
        <>
          <path
            className="drawing-leg"
            d={away(armOf(node.trunk), 5, LEG_PX) + away(armOf(node.normal), 5, LEG_PX)}
          />
          <path className="drawing-leg" data-reverse="true" d={away(armOf(node.reverse), 5, LEG_PX)} />
          <circle className="drawing-points" r="5" />
          {node.selfLining === true ? <circle className="drawing-self-lining" r="9" /> : null}
        </>
      );
    case 'crossing': {
      const [[a, b], [c, d]] = node.ways;
      return (
        <>
          <path className="drawing-leg" d={away(armOf(a), 0, LEG_PX) + away(armOf(b), 0, LEG_PX)} />
          <path
            className="drawing-leg"
            data-reverse="true"
            d={away(armOf(c), 4, LEG_PX) + away(armOf(d), 4, LEG_PX)}
          />
          <rect className="drawing-points" x="-5" y="-5" width="10" height="10" />
          {node.insulated ? (
            <rect className="drawing-self-lining" x="-9" y="-9" width="18" height="18" />
          ) : null}
          {(node.slips ?? []).map(([from, to]) => {
            const [one, other] = [armOf(from), armOf(to)];
            if (one === undefined || other === undefined) return null;
            const spot = (arm: Arm) => `${Math.cos(arm.direction) * 16} ${Math.sin(arm.direction) * 16}`;
            return (
              <path key={`${from} ${to}`} className="drawing-slip" d={`M${spot(one)}Q0 0 ${spot(other)}`} />
            );
          })}
        </>
      );
    }
  }
}

function DrawnNode({ node, at, arms, selected }: NodeMarkProps) {
  return (
    <g transform={`translate(${at[0]} ${at[1]})`}>
      <g className="drawing-mark" data-node={node.kind}>
        {selected ? <circle className="drawing-chosen" r="13" /> : null}
        <Inside node={node} arms={arms} />
        {node.kind === 'turnout' || node.kind === 'crossing' ? (
          <text className="drawing-id" x="0" y="-16">
            {node.id}
          </text>
        ) : null}
      </g>
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
