/** Remedies for what the audit finds in the track: the edit that mends it, where one is the sensible one. */
import type { EdgeId } from '../../ids.ts';
import type { Finding } from '../../refusal.ts';
import { LISTS, type TrackEdge } from '../document.ts';
import { indexRailroad } from '../railroad.ts';
import type { DraftDocument } from './draft.ts';
import type { Edit } from './edit.ts';
import { editBetween } from './edit-between.ts';
import { fitNodes } from './fit-nodes.ts';
import type { Outcome } from './outcome.ts';
import { removeTrack } from './remove-track.ts';
import { withBlockOn } from './sources.ts';
import { cutEdge, setJoin, splitEdge } from './split-edge.ts';
import { withThing } from './things.ts';
import { trackOf } from './track.ts';

/** The edit that mends a finding, with short words for its button; null where it takes somebody who knows the railroad. */
export type Remedy = (finding: Finding, draft: DraftDocument) => Edit | null;

const editOf = (draft: DraftDocument, outcome: Outcome, says: string): Edit | null =>
  outcome.ok ? editBetween(draft, outcome.draft, says) : null;

/** Feeders of one block on some edges given to another edge. */
const movedFeeders = (draft: DraftDocument, block: string, from: string, to: EdgeId): DraftDocument => ({
  ...draft,
  blocks: draft.blocks.map((one) =>
    one.id === block
      ? {
          ...one,
          feeders: one.feeders.map((feeder) => (feeder.edge === from ? { ...feeder, edge: to } : feeder)),
        }
      : one,
  ),
});

/** Where the last edge of a track is cut: so near the edge before it that its feeder stays on the far side. */
const NEAR_SHARE = 0.25;

/** A gap where two blocks are one: at a joint between their feeders, else in the last edge of the track between them. */
const gapBetween: Remedy = ({ about }, draft) => {
  const [, second, ...track] = about;
  const { edges, nodes, edgesAt } = trackOf(draft);
  const inTrack = new Set(track);
  const joint = draft.nodes.find(
    ({ id, kind }) => kind === 'joint' && edgesAt.get(id)?.every((edge) => inTrack.has(edge)) === true,
  );
  if (joint !== undefined) return editOf(draft, setJoin(draft, joint.id, 'gap'), `gap at ${joint.id}`);
  const last = edges.get(track.at(-1) as EdgeId);
  if (last === undefined || second === undefined) return null;
  const before = edges.get(track.at(-2) as EdgeId);
  if (before === undefined) {
    const split = splitEdge(draft, last, 0.5, 'gap');
    const fresh = split.parts.find((part) => part !== last.id) as EdgeId;
    return editBetween(
      draft,
      movedFeeders(split.draft, second, last.id, fresh),
      `gap in ${last.id}, with the feeder of ${second} beyond it`,
    );
  }
  const atFirst = before.between.includes(last.between[0]);
  const meets = nodes.get(last.between[atFirst ? 0 : 1]);
  if (meets === undefined) return null;
  return editOf(draft, cutEdge(draft, last.id, atFirst ? NEAR_SHARE : 1 - NEAR_SHARE), `gap in ${last.id}`);
};

/** The longest edge of some: a feeder belongs on it rather than on a short piece. */
const longest = (draft: DraftDocument, ids: readonly string[]): TrackEdge | null =>
  draft.edges
    .filter(({ id }) => ids.includes(id))
    .reduce<TrackEdge | null>(
      (best, edge) => (best === null || edge.length > best.length ? edge : best),
      null,
    );

/** Feeds dead track: from a block that has no feeder yet, else from a block of its own. */
const feedIt: Remedy = ({ about }, draft) => {
  const edge = longest(draft, about);
  if (edge === null) return null;
  const waiting = draft.blocks.find(({ feeders }) => feeders.length === 0);
  if (waiting !== undefined) {
    const blocks = draft.blocks.map((block) =>
      block === waiting ? { ...block, feeders: [{ edge: edge.id }] } : block,
    );
    return editBetween(draft, { ...draft, blocks }, `feeder of ${waiting.id} on ${edge.id}`);
  }
  const made = withBlockOn(draft, edge.id, { kind: 'selector' });
  return made.ok ? editBetween(draft, made.draft, `new block ${made.about[0]} on ${edge.id}`) : null;
};

/** Closes the gap that parts a block from itself; where other blocks lie between, the second piece becomes a block of its own. */
const oneBlock: Remedy = ({ about: [id] }, draft) => {
  const railroad = indexRailroad(draft);
  const own = railroad.sections.filter(({ blocks }) => blocks.some((block) => block === id));
  const pieceOf = (edge: EdgeId) => own.findIndex(({ edges }) => edges.includes(edge));
  const gap = draft.nodes.find((node) => {
    if (node.kind !== 'gap') return false;
    const [one, other] = (railroad.edgesAt.get(node.id) ?? []).map(pieceOf);
    return one !== undefined && other !== undefined && one >= 0 && other >= 0 && one !== other;
  });
  if (gap !== undefined) return editOf(draft, setJoin(draft, gap.id, 'joint'), `no gap at ${gap.id}`);
  const second = new Set(own[1]?.edges);
  const block = draft.blocks.find((one) => one.id === id);
  if (block === undefined || second.size === 0) return null;
  const [first, ...more] = block.feeders.filter(({ edge }) => second.has(edge));
  const left = withThing(draft, 'blocks', block.id, {
    feeders: block.feeders.filter(({ edge }) => !second.has(edge)),
  });
  const made = first === undefined ? null : withBlockOn(left, first.edge, { kind: 'selector' });
  const [name] = made?.ok === true ? made.about : [];
  if (first === undefined || made?.ok !== true || name === undefined) return null;
  const fed = withThing(made.draft, 'blocks', name, { feeders: [first, ...more] });
  return editBetween(draft, fed, `new block ${name} for the piece of ${id}`);
};

/** Settings without an id that is not there. */
const withoutKey = <Value>(record: Readonly<Record<string, Value>>, gone: string): Record<string, Value> =>
  Object.fromEntries(Object.entries(record).filter(([id, value]) => id !== gone && value !== gone));

/** Takes a reference to nothing out of its holder, where the holder is whole without it. */
function withoutReference(draft: DraftDocument, holder: string, named: readonly string[]): DraftDocument {
  const gone = new Set(named);
  const [first = ''] = named;
  return {
    ...draft,
    selectors: draft.selectors.map((selector) =>
      selector.id === holder
        ? {
            ...selector,
            positions: selector.positions.map((at) => (at !== null && gone.has(at) ? null : at)),
          }
        : selector,
    ),
    blocks: draft.blocks.map((block) =>
      block.id === holder
        ? { ...block, feeders: block.feeders.filter(({ edge }) => !gone.has(edge)) }
        : block,
    ),
    places: draft.places.map((place) =>
      place.id === holder
        ? {
            ...place,
            at: place.at.filter(({ edge, toward }) =>
              named.length === 1 ? edge !== first && toward !== first : edge !== first || toward !== named[1],
            ),
          }
        : place,
    ),
    settings: draft.settings.map((setting) =>
      setting.id === holder
        ? {
            ...setting,
            selectors: withoutKey(setting.selectors, first) as typeof setting.selectors,
            turnouts: withoutKey(setting.turnouts, first) as typeof setting.turnouts,
            toggles: withoutKey(setting.toggles, first),
          }
        : setting,
    ),
  };
}

const HOLDER_WORDS: Readonly<Partial<Record<(typeof LISTS)[number], string>>> = {
  selectors: 'the dial of',
  blocks: 'the feeders of',
  places: 'place',
  settings: 'setting',
};

/** Mends a reference that leads nowhere: nodes are fitted to their edges, an edge without an end goes, other references are taken out. */
const mendReference: Remedy = ({ about: [holder = '', ...named] }, draft) => {
  const list = LISTS.find((name) => draft[name].some(({ id }) => id === holder));
  if (list === 'nodes') {
    const node = draft.nodes.find(({ id }) => id === holder);
    if (node === undefined) return null;
    const after = fitNodes(draft, [node.id]);
    const edit = editBetween(draft, after, `${holder} made to fit its edges`);
    if (edit.changes.length > 0) return edit;
    const bare = draft.nodes.map((one) =>
      one === node ? { id: node.id, kind: 'joint' as const, at: node.at } : one,
    );
    return editBetween(
      draft,
      fitNodes({ ...draft, nodes: bare }, [node.id]),
      `${holder} made to fit its edges`,
    );
  }
  if (list === 'edges') return editOf(draft, removeTrack(draft, new Set([holder])), `${holder} removed`);
  const words = list === undefined ? undefined : HOLDER_WORDS[list];
  if (words === undefined) return null;
  const edit = editBetween(
    draft,
    withoutReference(draft, holder, named),
    `${named.join(', ')} out of ${words} ${holder}`,
  );
  return edit.changes.length === 0 ? null : edit;
};

/** Remedies by the code of the finding, for what is in the track or in what names it. */
export const trackRemedies: Readonly<Partial<Record<Finding['code'], Remedy>>> = {
  'broken-reference': mendReference,
  'two-sources': gapBetween,
  'dead-track': feedIt,
  'split-block': oneBlock,
};
