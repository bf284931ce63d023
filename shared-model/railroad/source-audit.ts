/** What feeds what: sections fed twice or not at all, blocks in pieces, toggles in a circle, blocks without a selector. */
import type { BlockId, EdgeId } from '../ids.ts';
import type { Finding } from '../refusal.ts';
import type { Block } from './document.ts';
import { finding, inWords } from './findings.ts';
import type { Railroad, Section } from './railroad.ts';
import { shortestTrack } from './shortest-track.ts';

const feedersOn = (block: Block | undefined, section: Section): readonly EdgeId[] =>
  [...new Set(block?.feeders.map((feeder) => feeder.edge))].filter((edge) => section.edges.includes(edge));

/** Blocks that share a section, each joined to those before it by the shortest track between their feeders: a gap is missing on each. */
function missingGaps(
  railroad: Railroad,
  section: Section,
): readonly { readonly blocks: readonly [BlockId, BlockId]; readonly track: readonly EdgeId[] }[] {
  const joined = section.blocks.slice(0, 1);
  const left = section.blocks.slice(1);
  const missing = [];
  const feeders = (block: BlockId) => feedersOn(railroad.blocks.get(block), section);
  while (left.length > 0) {
    const nearest = joined
      .flatMap((one) => left.map((other) => ({ one, other })))
      .map(({ one, other }) => ({
        blocks: [one, other] as const,
        ...shortestTrack(railroad, section, feeders(one), feeders(other)),
      }))
      .reduce((best, next) => (next.lengthMm < best.lengthMm ? next : best));
    missing.push({ blocks: nearest.blocks, track: nearest.edges });
    joined.push(...left.splice(left.indexOf(nearest.blocks[1]), 1));
  }
  return missing;
}

function twoSources(railroad: Railroad): readonly Finding[] {
  const error = finding('two-sources', 'error');
  return railroad.sections.flatMap((section) =>
    missingGaps(railroad, section).map(({ blocks, track }) =>
      error(
        [...blocks, ...track],
        `Blocks ${blocks[0]} and ${blocks[1]} feed one section, since no gap parts them: from feeder to feeder it is ${inWords(track)}.`,
        track.length === 1
          ? `Cut a gap in edge ${track[0]} between the two feeders, or take one of them off.`
          : `Cut a gap somewhere along ${inWords(track)}, or take one of the two feeders off.`,
      ),
    ),
  );
}

function deadTrack(railroad: Railroad): readonly Finding[] {
  const error = finding('dead-track', 'error');
  return railroad.sections
    .filter((section) => section.blocks.length === 0)
    .map((section) =>
      error(
        section.edges,
        `No feeder is on ${inWords(section.edges)}: this track is dead.`,
        'Put the feeder of a block on it, or close a gap that parts it from a block that it belongs to.',
      ),
    );
}

function splitBlocks(railroad: Railroad): readonly Finding[] {
  const error = finding('split-block', 'error');
  return railroad.document.blocks.flatMap((block) => {
    const pieces = railroad.sections.filter((section) => section.blocks.includes(block.id));
    if (pieces.length < 2) return [];
    const feeders = pieces.flatMap((section) => feedersOn(block, section).slice(0, 1));
    return [
      error(
        [block.id, ...feeders],
        `The feeders of block ${block.id} are on ${pieces.length} sections that gaps part from each other, by ${inWords(feeders)}.`,
        `Close the gaps between them, or make a block of its own of each section.`,
      ),
    ];
  });
}

/** The blocks from one around a circle of toggles back to it; undefined when the feed ends at a knob or throttle. */
function circleFrom(railroad: Railroad, start: BlockId): readonly BlockId[] | undefined {
  const way: BlockId[] = [];
  for (let at = start; ; ) {
    const source = railroad.blocks.get(at)?.source;
    if (source === undefined || !('toggle' in source)) return undefined;
    way.push(at);
    at = source.from;
    if (at === start) return way;
    if (way.includes(at)) return undefined;
  }
}

/** `feed-loop` findings: toggles that feed each other in a circle. */
export function feedLoops(railroad: Railroad): readonly Finding[] {
  const error = finding('feed-loop', 'error');
  const told = new Set<BlockId>();
  return railroad.document.blocks.flatMap(({ id }) => {
    const circle = told.has(id) ? undefined : circleFrom(railroad, id);
    if (circle === undefined) return [];
    for (const block of circle) told.add(block);
    const toggles = circle.flatMap((block) => {
      const source = railroad.blocks.get(block)?.source;
      return source !== undefined && 'toggle' in source ? [source.toggle] : [];
    });
    return [
      error(
        [...toggles, ...circle],
        circle.length === 1
          ? `Toggle ${toggles[0]} feeds block ${id} from itself.`
          : `Toggles ${inWords(toggles)} feed blocks ${inWords(circle)} from each other, in a circle.`,
        'Feed one of these blocks from a selector, from a throttle, or from a block outside the circle.',
      ),
    ];
  });
}

function oneCabBlocks(railroad: Railroad): readonly Finding[] {
  const info = finding('one-cab-block', 'info');
  return railroad.document.blocks.flatMap(({ id, source }) =>
    'throttle' in source
      ? [
          info(
            [id],
            `Block ${id} is wired straight to throttle ${source.throttle}: no other cab can run in it.`,
            'Nothing is wrong with it; the next selector could go here.',
          ),
        ]
      : [],
  );
}

/** Findings about sources, on a railroad without broken references. */
export function auditSources(railroad: Railroad): readonly Finding[] {
  return [
    ...twoSources(railroad),
    ...deadTrack(railroad),
    ...splitBlocks(railroad),
    ...feedLoops(railroad),
    ...oneCabBlocks(railroad),
  ];
}
