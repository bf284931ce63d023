/** Where on the drawing a finding is: at a node that it is about, else in the middle of an edge, else on a feeder of its block. */
import { lineLength, type Point, pointAlong } from '../../../shared-model/polyline.ts';
import type { Block } from '../../../shared-model/railroad/document.ts';
import { lineOf } from '../../../shared-model/railroad/editing/track.ts';
import type { Railroad } from '../../../shared-model/railroad/railroad.ts';
import type { Finding } from '../../../shared-model/refusal.ts';

/** The blocks that a finding is about: those it names, else those behind a selector or toggle that it names. */
function blocksAbout({ document: { blocks } }: Railroad, about: readonly string[]): readonly Block[] {
  const named = blocks.filter(({ id }) => about.includes(id));
  if (named.length > 0) return named;
  return blocks.filter(({ source }) => {
    const knob = 'selector' in source ? source.selector : 'toggle' in source ? source.toggle : null;
    return knob !== null && about.includes(knob);
  });
}

/** What to select to see a finding: the nodes and edges that it is about, else the track of its blocks. */
export function trackAbout(railroad: Railroad, { about }: Finding): readonly string[] {
  const named = about.filter((id) => railroad.nodes.has(id as never) || railroad.edges.has(id as never));
  if (named.length > 0) return named;
  return blocksAbout(railroad, about).flatMap(({ id }) => railroad.edgesOfBlock.get(id) ?? []);
}

/** The spot of a finding in squares; null for one that is about no track at all. */
export function placeOf(railroad: Railroad, finding: Finding): Point | null {
  const [first] = trackAbout(railroad, finding);
  const node = railroad.nodes.get(first as never);
  if (node !== undefined) return node.at;
  const edge = railroad.edges.get(first as never);
  if (edge === undefined) return null;
  const line = lineOf(railroad, edge);
  return pointAlong(line, lineLength(line) / 2).at;
}
