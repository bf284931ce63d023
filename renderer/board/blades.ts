/** The short bold strokes over a turnout or a crossing with slips that show which way it is set. */
import type { EdgeId } from '../../shared-model/ids.ts';
import type { CrossingNode, TurnoutNode, TurnoutPosition } from '../../shared-model/railroad/document.ts';
import type { Railroad } from '../../shared-model/railroad/railroad.ts';
import type { BoardLayout } from './board-layout.ts';
import { lineLength, type Polyline, reversedLine, sliceLine } from './polyline.ts';
import { lineFrom } from './track-drawing.ts';

/** Length of an arm of a blade, in parts of the letter size. */
const ARM_LETTERS = 0.95;

/** The ways that are open: pairs of edges. */
function openWays(
  node: TurnoutNode | CrossingNode,
  position: TurnoutPosition,
): readonly (readonly [EdgeId, EdgeId])[] {
  if (node.kind === 'turnout') return [[node.trunk, position === 'normal' ? node.normal : node.reverse]];
  return position === 'normal' ? node.ways : (node.slips ?? node.ways);
}

/** @returns for each open way a line from the end of one arm, over the node, to the end of the other */
export function bladesAt(
  railroad: Railroad,
  layout: BoardLayout,
  node: TurnoutNode | CrossingNode,
  position: TurnoutPosition,
): readonly Polyline[] {
  const arm = (edge: EdgeId): Polyline => {
    const line = lineFrom(railroad, layout.lines, edge, node.id);
    return sliceLine(line, 0, Math.min(layout.sizes.letter * ARM_LETTERS, lineLength(line) * 0.45));
  };
  return openWays(node, position).map(([one, other]) => [...reversedLine(arm(one)), ...arm(other).slice(1)]);
}
