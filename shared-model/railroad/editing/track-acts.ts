/** What can be changed of nodes and edges that are there: legs, ways, slips, bends, lengths, names. */
import type { EdgeId } from '../../ids.ts';
import { lineLength, nearestOnLine, type Point } from '../../polyline.ts';
import type { CrossingNode, TrackEdge, TurnoutNode } from '../document.ts';
import type { DraftDocument } from './draft.ts';
import { legsInOrder, pairings } from './fit-nodes.ts';
import { withNode } from './open-ends.ts';
import { done, type Outcome, refused } from './outcome.ts';
import { directionAt, lineOf, trackOf } from './track.ts';

const turnoutOf = (draft: DraftDocument, id: string): TurnoutNode | undefined =>
  draft.nodes.find((node): node is TurnoutNode => node.id === id && node.kind === 'turnout');

const crossingOf = (draft: DraftDocument, id: string): CrossingNode | undefined =>
  draft.nodes.find((node): node is CrossingNode => node.id === id && node.kind === 'crossing');

const noTurnout = (id: string): Outcome => refused(`${id} is no turnout`);
const noCrossing = (id: string): Outcome => refused(`${id} is no crossing`);

const changed = (draft: DraftDocument, node: TurnoutNode | CrossingNode): Outcome =>
  done(
    withNode(draft, node.id, () => node),
    node.id,
  );

/** Makes one of a turnout's edges its trunk, the points end; of the other two the straighter becomes the normal leg. */
export function setTrunk(draft: DraftDocument, id: string, trunk: string): Outcome {
  const node = turnoutOf(draft, id);
  if (node === undefined) return noTurnout(id);
  const track = trackOf(draft);
  const edges = [node.trunk, node.normal, node.reverse];
  const arms = edges.flatMap((edge) => {
    const found = track.edges.get(edge);
    return found === undefined ? [] : [{ edge, direction: directionAt(track, found, node.id) }];
  });
  const first = arms.find((arm) => arm.edge === trunk);
  if (first === undefined) return refused(`${trunk} is not one of the edges at ${id}`);
  const legs = arms.filter((arm) => arm !== first);
  const straight = legsInOrder([first, ...legs]);
  const [normal, reverse] = straight[0] === first ? straight.slice(1) : legs;
  if (normal === undefined || reverse === undefined) return refused(`${id} has not three edges`);
  return changed(draft, { ...node, trunk: first.edge, normal: normal.edge, reverse: reverse.edge });
}

/** Makes the next of a turnout's three edges its trunk. */
export function nextTrunk(draft: DraftDocument, id: string): Outcome {
  const node = turnoutOf(draft, id);
  if (node === undefined) return noTurnout(id);
  const edges = trackOf(draft).edgesAt.get(node.id) ?? [];
  return setTrunk(draft, id, edges[(edges.indexOf(node.trunk) + 1) % edges.length] ?? '');
}

/** Swaps normal and reverse. */
export function swapLegs(draft: DraftDocument, id: string): Outcome {
  const node = turnoutOf(draft, id);
  if (node === undefined) return noTurnout(id);
  return changed(draft, { ...node, normal: node.reverse, reverse: node.normal });
}

/** Whether a trailing train moves the points of a turnout. */
export function setSelfLining(draft: DraftDocument, id: string, selfLining: boolean): Outcome {
  const node = turnoutOf(draft, id);
  if (node === undefined) return noTurnout(id);
  const { selfLining: _before, ...plain } = node;
  return changed(draft, selfLining ? { ...plain, selfLining: true } : plain);
}

/** Pairs the four edges of a crossing into two ways otherwise; its slips go. */
export function nextWays(draft: DraftDocument, id: string): Outcome {
  const node = crossingOf(draft, id);
  if (node === undefined) return noCrossing(id);
  const [a, b, c, d] = trackOf(draft).edgesAt.get(node.id) ?? [];
  if (a === undefined || b === undefined || c === undefined || d === undefined)
    return refused(`${id} has not four edges`);
  const all = pairings([a, b, c, d]);
  const across = ([one, other]: readonly [EdgeId, EdgeId]) =>
    node.ways.some((way) => way.includes(one) && way.includes(other));
  const now = all.findIndex((ways) => ways.every(across));
  const { slips: _before, ...plain } = node;
  return changed(draft, {
    ...plain,
    ways: all[(now + 1) % all.length] as [[EdgeId, EdgeId], [EdgeId, EdgeId]],
  });
}

/** Whether the two ways of a crossing are separate electrically. */
export function setInsulated(draft: DraftDocument, id: string, insulated: boolean): Outcome {
  const node = crossingOf(draft, id);
  if (node === undefined) return noCrossing(id);
  return changed(draft, { ...node, insulated });
}

/** How many slips each form of crossing has. */
export const SLIP_FORMS = ['none', 'one', 'other', 'both'] as const;
export type SlipForm = (typeof SLIP_FORMS)[number];

/** The two slips that a crossing can have: each joins neighbouring ends, one on either side. */
function possibleSlips(
  draft: DraftDocument,
  node: CrossingNode,
): readonly [[EdgeId, EdgeId], [EdgeId, EdgeId]] {
  const track = trackOf(draft);
  const [[a, b], [c, d]] = node.ways;
  const direction = (id: EdgeId) => {
    const edge = track.edges.get(id);
    return edge === undefined ? 0 : directionAt(track, edge, node.id);
  };
  /** How far from opposite two ends are: a slip joins those over which a train goes on nearly straight. */
  const bend = (one: EdgeId, other: EdgeId) => {
    const turn = Math.abs(direction(one) - direction(other)) % (2 * Math.PI);
    return Math.abs(Math.PI - turn);
  };
  const choices: readonly [[EdgeId, EdgeId], [EdgeId, EdgeId]][] = [
    [
      [a, c],
      [b, d],
    ],
    [
      [a, d],
      [b, c],
    ],
  ];
  const bends = choices.map(([one, other]) => bend(...one) + bend(...other));
  return (bends[1] ?? 0) < (bends[0] ?? 0) - 1e-9
    ? (choices[1] as [[EdgeId, EdgeId], [EdgeId, EdgeId]])
    : (choices[0] as [[EdgeId, EdgeId], [EdgeId, EdgeId]]);
}

/** The form of slip that a crossing has; `null` for slips that this board does not draw of itself. */
export function slipFormOf(draft: DraftDocument, node: CrossingNode): SlipForm | null {
  if (node.slips === undefined) return 'none';
  const possible = possibleSlips(draft, node);
  const has = possible.map((slip) => node.slips?.some((one) => slip.every((edge) => one.includes(edge))));
  if (node.slips.length === 2) return has[0] === true && has[1] === true ? 'both' : null;
  return has[0] === true ? 'one' : has[1] === true ? 'other' : null;
}

/** Gives a crossing slips; with any it is thrown like a turnout. */
export function setSlips(draft: DraftDocument, id: string, form: SlipForm): Outcome {
  const node = crossingOf(draft, id);
  if (node === undefined) return noCrossing(id);
  const [one, other] = possibleSlips(draft, node);
  const { slips: _before, ...plain } = node;
  if (form === 'none') return changed(draft, plain);
  return changed(draft, {
    ...plain,
    slips: form === 'both' ? [one, other] : [form === 'one' ? one : other],
  });
}

const withEdges = (
  draft: DraftDocument,
  ids: ReadonlySet<string>,
  change: (edge: TrackEdge) => TrackEdge,
): DraftDocument => ({
  ...draft,
  edges: draft.edges.map((edge) => (ids.has(edge.id) ? change(edge) : edge)),
});

/** The longest track that an edge may be: 10 km. */
const MOST_MM = 10_000_000;

/** Gives edges a length, in millimetres. */
export function setLength(draft: DraftDocument, ids: ReadonlySet<string>, length: number): Outcome {
  const edges = draft.edges.filter(({ id }) => ids.has(id));
  if (edges.length === 0) return refused('no edge is selected that could have a length');
  if (!(length > 0 && length <= MOST_MM)) return refused('a length is more than 0 and at most 10 km');
  return done(
    withEdges(draft, ids, (edge) => ({ ...edge, length })),
    ...edges.map(({ id }) => id),
  );
}

/** Gives an edge a name; the empty name takes it away. */
export function setEdgeName(draft: DraftDocument, id: string, name: string): Outcome {
  if (!draft.edges.some((edge) => edge.id === id)) return refused(`there is no edge ${id}`);
  if (name.length > 120) return refused('a name has at most 120 characters');
  return done(
    withEdges(draft, new Set([id]), ({ name: _before, ...edge }) => (name === '' ? edge : { ...edge, name })),
    id,
  );
}

/** Bends an edge over a spot; the bend comes where the spot is nearest to the line. */
export function addBend(draft: DraftDocument, id: string, spot: Point): Outcome {
  const track = trackOf(draft);
  const edge = track.edges.get(id as EdgeId);
  if (edge === undefined) return refused(`there is no edge ${id}`);
  const line = lineOf(track, edge);
  const { along } = nearestOnLine(spot, line);
  const shape = [...(edge.shape ?? [])];
  const index = shape.findIndex((_, bend) => lineLength(line.slice(0, bend + 2)) > along);
  shape.splice(index === -1 ? shape.length : index, 0, [spot[0], spot[1]]);
  return done(
    withEdges(draft, new Set([id]), (one) => ({ ...one, shape })),
    id,
  );
}

/** Moves a bend of an edge; null takes it away. */
export function moveBend(draft: DraftDocument, id: string, index: number, spot: Point | null): Outcome {
  const edge = draft.edges.find((one) => one.id === id);
  if (edge?.shape?.[index] === undefined) return refused(`${id} has no such bend`);
  const shape = [...edge.shape];
  if (spot === null) shape.splice(index, 1);
  else shape[index] = [spot[0], spot[1]];
  const { shape: _before, ...plain } = edge;
  return done(
    withEdges(draft, new Set([id]), () => (shape.length === 0 ? plain : { ...plain, shape })),
    id,
  );
}
