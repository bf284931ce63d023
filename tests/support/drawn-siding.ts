/** The track of the example passing siding, drawn from a blank sheet by the operations of the drawing board. */
import type { Point } from '../../shared-model/polyline.ts';
import type { TurnoutNode } from '../../shared-model/railroad/document.ts';
import { blankSheet, type DraftDocument } from '../../shared-model/railroad/editing/draft.ts';
import { drawEdge } from '../../shared-model/railroad/editing/draw-edge.ts';
import type { Outcome } from '../../shared-model/railroad/editing/outcome.ts';
import { setJoin } from '../../shared-model/railroad/editing/split-edge.ts';

export function draftOf(outcome: Outcome): DraftDocument {
  if (!outcome.ok) throw new Error(outcome.says);
  return outcome.draft;
}

/** Why an operation was refused; "done" when it was not. */
export const saysNo = (outcome: Outcome): string => (outcome.ok ? 'done' : outcome.says);

/** The first turnout of a draft. */
export function turnoutOf(draft: DraftDocument): TurnoutNode {
  const found = draft.nodes.find((node): node is TurnoutNode => node.kind === 'turnout');
  if (found === undefined) throw new Error('no turnout');
  return found;
}

export const drawn = (draft: DraftDocument, lengthMm: number, ...points: readonly Point[]): DraftDocument =>
  draftOf(drawEdge(draft, points, lengthMm));

/** Node at a spot of the sheet. */
export const nodeAt = (draft: DraftDocument, [x, y]: Point) => {
  const node = draft.nodes.find(({ at }) => at[0] === x && at[1] === y);
  if (node === undefined) throw new Error(`no node at ${x},${y}`);
  return node;
};

export function drawnSiding(name = 'Passing siding'): DraftDocument {
  let draft = blankSheet(name);
  draft = drawn(draft, 1800, [0, 2], [6, 2]);
  draft = drawn(draft, 300, [6, 2], [8, 2]);
  draft = drawn(draft, 2400, [8, 2], [20, 2]);
  draft = drawn(draft, 250, [8, 2], [10, 4]);
  draft = drawn(draft, 2000, [10, 4], [18, 4]);
  draft = drawn(draft, 250, [18, 4], [20, 2]);
  draft = drawn(draft, 300, [20, 2], [22, 2]);
  draft = drawn(draft, 1800, [22, 2], [28, 2]);
  for (const spot of [
    [6, 2],
    [10, 4],
    [18, 4],
    [22, 2],
  ] as const)
    draft = draftOf(setJoin(draft, nodeAt(draft, spot).id, 'gap'));
  return draft;
}
