/** A setting in which every loop runs by itself, each on a throttle of its own, so that nobody has to dispatch. */
import type { BlockId, EdgeId, NodeId, ThrottleId } from '../ids.ts';
import type { Selector, Setting } from './document.ts';
import { feedOf } from './feed.ts';
import type { Railroad } from './railroad.ts';
import { isThrown, onwardAsSet, type Spot } from './travel.ts';

export interface DisplayLoop {
  readonly edges: readonly EdgeId[];
  readonly blocks: readonly BlockId[];
  readonly throttle: ThrottleId;
}

export interface DisplaySetting {
  readonly loops: readonly DisplayLoop[];
  readonly positions: Pick<Setting, 'selectors' | 'turnouts' | 'toggles'>;
}

/** The way from a spot back to it with every turnout normal; null where it ends, or runs into a turnout from the wrong leg. */
function loopFrom(railroad: Railroad, start: Spot): readonly Spot[] | null {
  const way: Spot[] = [];
  const most = 2 * railroad.document.edges.length;
  for (let at: Spot | undefined = start; at !== undefined && way.length <= most; ) {
    way.push(at);
    at = onwardAsSet(railroad, at, () => 'normal');
    if (at?.edge === start.edge && at.toward === start.toward) return way;
  }
  return null;
}

interface Loop {
  readonly edges: readonly EdgeId[];
  readonly nodes: ReadonlySet<NodeId>;
  readonly blocks: readonly BlockId[];
}

function loopsOf(railroad: Railroad): readonly Loop[] {
  const seen = new Set<EdgeId>();
  return railroad.document.edges.flatMap(({ id, between: [, toward] }): readonly Loop[] => {
    if (seen.has(id)) return [];
    const way = loopFrom(railroad, { edge: id, toward });
    if (way === null) return [];
    for (const { edge } of way) seen.add(edge);
    const edges = [...new Set(way.map(({ edge }) => edge))];
    const blocks = edges.flatMap((edge) => railroad.blockOfEdge.get(edge) ?? []);
    return [{ edges, nodes: new Set(way.map((spot) => spot.toward)), blocks: [...new Set(blocks)] }];
  });
}

const share = <Item>(one: Iterable<Item>, other: Iterable<Item>): boolean => {
  const first = new Set(one);
  return [...other].some((item) => first.has(item));
};

/** The throttles that every block of a loop can be on, and the knobs by which it is; null where some of its track is dead. */
function feedsOf(railroad: Railroad, loop: Loop) {
  if (loop.edges.some((edge) => !railroad.blockOfEdge.has(edge))) return null;
  const feeds = loop.blocks.map((block) => feedOf(railroad, block));
  const whole = feeds.filter((feed) => feed !== null);
  if (whole.length < feeds.length) return null;
  const [first, ...rest] = whole;
  const throttles = (first?.throttles ?? []).filter((throttle) =>
    rest.every((feed) => feed.throttles.includes(throttle)),
  );
  return {
    loop,
    throttles,
    roots: new Set(whole.map(({ root }) => root)),
    selectors: new Set(whole.flatMap(({ selector }) => selector ?? [])),
    toggles: new Set(whole.flatMap((feed) => feed.toggles)),
  };
}
type LoopFeeds = NonNullable<ReturnType<typeof feedsOf>>;

/** A throttle for each loop, no throttle twice; the first that works in the order of the dials. */
function oneEach(
  loops: readonly LoopFeeds[],
  taken: readonly ThrottleId[] = [],
): readonly ThrottleId[] | null {
  const loop = loops[taken.length];
  if (loop === undefined) return taken;
  for (const throttle of loop.throttles) {
    if (taken.includes(throttle)) continue;
    const rest = oneEach(loops, [...taken, throttle]);
    if (rest !== null) return rest;
  }
  return null;
}

/** What a dial that feeds no loop is turned to: off, where it has that. */
const idle = ({ positions }: Selector): ThrottleId | 'off' =>
  positions.includes('off') ? 'off' : (positions.find((position) => position !== null) ?? 'off');

/**
 * The display setting of a railroad: turnouts normal, each loop on its own throttle, everything else off.
 *
 * @returns null where the railroad does not allow it: no loop closes with the turnouts normal, two loops meet or share a block or a
 *   knob, some of their track is dead, or there are not throttles enough that all blocks of a loop can be on
 */
export function displaySetting(railroad: Railroad): DisplaySetting | null {
  const loops = loopsOf(railroad);
  const feeds = loops.flatMap((loop) => feedsOf(railroad, loop) ?? []);
  if (loops.length === 0 || feeds.length < loops.length) return null;
  const meet = feeds.some((one, index) =>
    feeds
      .slice(index + 1)
      .some(
        (other) =>
          share(one.loop.nodes, other.loop.nodes) ||
          share(one.roots, other.roots) ||
          share(one.selectors, other.selectors),
      ),
  );
  const throttles = meet ? null : oneEach(feeds);
  if (throttles === null) return null;
  const { document } = railroad;
  const on = new Set(feeds.flatMap(({ toggles }) => [...toggles]));
  return {
    loops: feeds.map(({ loop }, index) => ({
      edges: loop.edges,
      blocks: loop.blocks,
      throttle: throttles[index] as ThrottleId,
    })),
    positions: {
      selectors: Object.fromEntries(
        document.selectors.map((selector) => {
          const at = feeds.findIndex(({ selectors }) => selectors.has(selector.id));
          return [selector.id, throttles[at] ?? idle(selector)];
        }),
      ),
      turnouts: Object.fromEntries(document.nodes.filter(isThrown).map(({ id }) => [id, 'normal' as const])),
      toggles: Object.fromEntries(document.toggles.map(({ id }) => [id, on.has(id)])),
    },
  };
}
