/** Another id for a thing, wherever the draft names it. */
import { LISTS, type TrackNode } from '../document.ts';
import { type DraftDocument, idsOf } from './draft.ts';
import { done, type Outcome, refused } from './outcome.ts';

type Renamed = <Id extends string>(id: Id) => Id;

const pair = <Id extends string>([a, b]: readonly [Id, Id], as: Renamed): [Id, Id] => [as(a), as(b)];

/** A node with the edges that it names under other names. */
export function nodeNaming(node: TrackNode, as: Renamed): TrackNode {
  if (node.kind === 'turnout')
    return { ...node, trunk: as(node.trunk), normal: as(node.normal), reverse: as(node.reverse) };
  if (node.kind !== 'crossing') return node;
  const { ways, slips } = node;
  return {
    ...node,
    ways: [pair(ways[0], as), pair(ways[1], as)],
    ...(slips === undefined ? {} : { slips: slips.map((slip) => pair(slip, as)) }),
  };
}

/** Things mapped; those that stay the same and a list in which all do are the same objects. */
function mapped<Value>(list: Value[], change: (thing: Value) => Value): Value[] {
  const changed = list.map((thing) => {
    const after = change(thing);
    return JSON.stringify(after) === JSON.stringify(thing) ? thing : after;
  });
  return changed.every((thing, index) => thing === list[index]) ? list : changed;
}

const keysRenamed = <Key extends string, Value>(
  record: Record<Key, Value>,
  as: Renamed,
): Record<Key, Value> =>
  Object.fromEntries(Object.entries<Value>(record).map(([id, value]) => [as(id), value])) as Record<
    Key,
    Value
  >;

/** The draft with one id replaced by another everywhere; the new one must be free. */
export function withId(draft: DraftDocument, from: string, to: string): DraftDocument {
  const as: Renamed = <Id extends string>(id: Id): Id => (id === from ? (to as Id) : id);
  return {
    ...draft,
    nodes: mapped(draft.nodes, (node) => ({ ...nodeNaming(node, as), id: as(node.id) })),
    edges: mapped(draft.edges, (edge) => ({ ...edge, id: as(edge.id), between: pair(edge.between, as) })),
    supplies: mapped(draft.supplies, (supply) => ({ ...supply, id: as(supply.id) })),
    throttles: mapped(draft.throttles, (throttle) => ({
      ...throttle,
      id: as(throttle.id),
      supply: as(throttle.supply),
    })),
    selectors: mapped(draft.selectors, (selector) => ({
      ...selector,
      id: as(selector.id),
      positions: selector.positions.map((position) => (position === null ? null : as(position))),
    })),
    toggles: mapped(draft.toggles, (toggle) => ({ ...toggle, id: as(toggle.id) })),
    blocks: mapped(draft.blocks, (block) => ({
      ...block,
      id: as(block.id),
      source:
        'selector' in block.source
          ? { selector: as(block.source.selector) }
          : 'throttle' in block.source
            ? { throttle: as(block.source.throttle) }
            : { toggle: as(block.source.toggle), from: as(block.source.from) },
      feeders: block.feeders.map((feeder) => ({ ...feeder, edge: as(feeder.edge) })),
    })),
    trains: mapped(draft.trains, (train) => ({ ...train, id: as(train.id) })),
    places: mapped(draft.places, (place) => ({
      ...place,
      id: as(place.id),
      at: place.at.map((spot) => ({ edge: as(spot.edge), toward: as(spot.toward) })),
    })),
    settings: mapped(draft.settings, (setting) => ({
      ...setting,
      id: as(setting.id),
      selectors: Object.fromEntries(
        Object.entries(keysRenamed(setting.selectors, as)).map(([id, position]) => [id, as(position)]),
      ),
      turnouts: keysRenamed(setting.turnouts, as),
      toggles: keysRenamed(setting.toggles, as),
    })),
  };
}

/**
 * Gives a thing of the draft another id.
 *
 * @returns refused if no thing has the first id, or one has the second, or it is no id (1 to 80 characters; a throttle cannot be "off")
 */
export function renameId(draft: DraftDocument, from: string, to: string): Outcome {
  const ids = idsOf(draft);
  if (!ids.has(from)) return refused(`nothing is called ${from}`);
  if (to === from) return done(draft, from);
  if (to === '' || to.length > 80) return refused('expected an id of 1 to 80 characters');
  if (to === 'off' && draft.throttles.some(({ id }) => id === from))
    return refused('expected an id other than "off", which is a selector position');
  if (ids.has(to)) {
    const list = LISTS.find((name) => draft[name].some(({ id }) => id === to));
    return refused(`${to} is in use already, among the ${list}`);
  }
  return done(withId(draft, from, to), to);
}
