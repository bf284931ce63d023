/** Every act of the drawing board on a draft, each made out of four numbers: for properties over whatever may be done. */
import type { BlockId, EdgeId } from '../../shared-model/ids.ts';
import { allDialsLike, nextSelector, onEveryDial } from '../../shared-model/railroad/editing/dials.ts';
import { type DraftDocument, freshId } from '../../shared-model/railroad/editing/draft.ts';
import { drawEdge } from '../../shared-model/railroad/editing/draw-edge.ts';
import {
  withFeeder,
  withFeederFields,
  withoutFeeder,
  withWire,
  withWireWhereMissing,
} from '../../shared-model/railroad/editing/feeders.ts';
import { joinEnds } from '../../shared-model/railroad/editing/join-ends.ts';
import { copyTrack, joinMet, moveTrack } from '../../shared-model/railroad/editing/move-track.ts';
import { openNode } from '../../shared-model/railroad/editing/open-ends.ts';
import { done, type Outcome } from '../../shared-model/railroad/editing/outcome.ts';
import {
  withNewSupply,
  withNewThrottle,
  withoutSupply,
  withoutThrottle,
} from '../../shared-model/railroad/editing/power-things.ts';
import { removeTrack } from '../../shared-model/railroad/editing/remove-track.ts';
import { renameId } from '../../shared-model/railroad/editing/rename-id.ts';
import {
  withBlockOn,
  withDeadTrackFed,
  withoutBlock,
  withSource,
} from '../../shared-model/railroad/editing/sources.ts';
import { cutEdge, mergeAt, setJoin } from '../../shared-model/railroad/editing/split-edge.ts';
import {
  movedTo,
  withNew,
  without,
  withoutKnob,
  withThing,
} from '../../shared-model/railroad/editing/things.ts';
import {
  addBend,
  moveBend,
  nextTrunk,
  nextWays,
  SLIP_FORMS,
  setEdgeName,
  setInsulated,
  setLength,
  setSelfLining,
  setSlips,
  setTrunk,
  swapLegs,
} from '../../shared-model/railroad/editing/track-acts.ts';

/** What an act is about: a thing of each kind, a spot of the sheet, and a number from 0 to 99. */
interface Hand {
  readonly draft: DraftDocument;
  readonly node: string;
  readonly edge: EdgeId;
  readonly turnout: string;
  readonly crossing: string;
  readonly block: BlockId;
  readonly some: ReadonlySet<string>;
  readonly spot: readonly [number, number];
  readonly to: readonly [number, number];
  readonly number: number;
}

type Act = (hand: Hand) => Outcome;

const picked = <Thing extends { readonly id: string }>(list: readonly Thing[], at: number): Thing['id'] =>
  list[at % Math.max(1, list.length)]?.id ?? '';

/** An operation that is never refused. */
const plain =
  (act: (hand: Hand) => DraftDocument): Act =>
  (hand) =>
    done(act(hand));

export const TRACK_ACTS: Readonly<Record<string, Act>> = {
  draw: ({ draft, spot, to, number }) => drawEdge(draft, [spot, to], 100 + number),
  'draw with a bend': ({ draft, spot, to, number }) =>
    drawEdge(draft, [spot, [to[0], spot[1]], to], 100 + number),
  cut: ({ draft, edge, number }) => cutEdge(draft, edge, number / 100),
  joint: ({ draft, node }) => setJoin(draft, node, 'joint'),
  gap: ({ draft, node }) => setJoin(draft, node, 'gap'),
  merge: ({ draft, node }) => mergeAt(draft, node),
  'remove an edge': ({ draft, edge }) => removeTrack(draft, new Set([edge])),
  'remove a node': ({ draft, node }) => removeTrack(draft, new Set([node])),
  move: ({ draft, some, to }) => joinMet(moveTrack(draft, some, [to[0] - 3, to[1] - 3]), some),
  copy: ({ draft, some, to }) => copyTrack(draft, some, [to[0], to[1] + 1]),
  'draw twice': ({ draft, node, to }) => openNode(draft, node, to),
  'join ends': ({ draft, number }) => {
    const ends = draft.nodes.filter(({ kind }) => kind === 'end');
    return joinEnds(draft, picked(ends, number), ends.at(-1)?.id ?? '');
  },
  'next trunk': ({ draft, turnout }) => nextTrunk(draft, turnout),
  trunk: ({ draft, turnout, edge }) => setTrunk(draft, turnout, edge),
  'swap legs': ({ draft, turnout }) => swapLegs(draft, turnout),
  'self-lining': ({ draft, turnout, number }) => setSelfLining(draft, turnout, number % 2 === 0),
  ways: ({ draft, crossing }) => nextWays(draft, crossing),
  insulated: ({ draft, crossing, number }) => setInsulated(draft, crossing, number % 2 === 0),
  slips: ({ draft, crossing, number }) => setSlips(draft, crossing, SLIP_FORMS[number % 4] ?? 'none'),
  length: ({ draft, edge, number }) => setLength(draft, new Set([edge]), 1 + number),
  name: ({ draft, edge, number }) => setEdgeName(draft, edge, number % 3 === 0 ? '' : `Edge ${number}`),
  bend: ({ draft, edge, spot }) => addBend(draft, edge, spot),
  'move a bend': ({ draft, edge, to, number }) => moveBend(draft, edge, 0, number % 2 === 0 ? to : null),
  'another id': ({ draft, node, number }) => renameId(draft, node, `id ${number}`),
};

export const WIRING_ACTS: Readonly<Record<string, Act>> = {
  supply: plain(({ draft }) => withNewSupply(draft)),
  'no supply': ({ draft, number }) => withoutSupply(draft, picked(draft.supplies, number) as never),
  throttle: plain(({ draft }) => withNewThrottle(draft)),
  'no throttle': ({ draft, number }) => withoutThrottle(draft, picked(draft.throttles, number) as never),
  'on every dial': plain(({ draft, number }) =>
    draft.throttles.length === 0 ? draft : onEveryDial(draft, picked(draft.throttles, number) as never),
  ),
  selector: plain(({ draft }) => withNew(draft, 'selectors', nextSelector(draft))),
  'no selector': ({ draft, number }) => withoutKnob(draft, 'selectors', picked(draft.selectors, number)),
  'no toggle': ({ draft, number }) => withoutKnob(draft, 'toggles', picked(draft.toggles, number)),
  'dials alike': plain(({ draft, number }) => allDialsLike(draft, picked(draft.selectors, number))),
  'position moved': plain(({ draft, number }) => {
    const id = picked(draft.selectors, number);
    const positions = draft.selectors.find((selector) => selector.id === id)?.positions ?? [];
    return withThing(draft, 'selectors', id, { positions: movedTo(positions, 0, 1) });
  }),
  block: ({ draft, edge, number }) =>
    edge === ''
      ? done(draft)
      : withBlockOn(draft, edge, { kind: number % 2 === 0 ? 'selector' : 'throttle' }),
  'feed all': ({ draft, number }) => withDeadTrackFed(draft, number % 2 === 0 ? 'selector' : 'throttle'),
  'no block': ({ draft, block }) => withoutBlock(draft, block),
  source: ({ draft, block, number }) =>
    withSource(
      draft,
      block,
      number % 2 === 0
        ? { kind: 'selector' }
        : { kind: 'toggle', from: picked(draft.blocks, number) as BlockId },
    ),
  feeder: plain(({ draft, block, edge }) => (edge === '' ? draft : withFeeder(draft, block, edge))),
  'no feeder': plain(({ draft, block }) => withoutFeeder(draft, block, 0)),
  way: plain(({ draft, block, number }) =>
    withFeederFields(draft, block, 0, { route: number % 2 === 0 ? undefined : 'duct' }),
  ),
  wire: plain(({ draft, block, number }) => withWire(draft, block, 0, [{ awg: 14, run: 1 + number }])),
  'same wire': plain(({ draft }) => withWireWhereMissing(draft, { awg: 16, run: 900 })),
};

export const OTHER_ACTS: Readonly<Record<string, Act>> = {
  railroad: plain(({ draft, number }) => ({ ...draft, name: `Railroad ${number}`, scaleRatio: 1 + number })),
  bus: plain(({ draft, number }) => {
    const { commonBus: _, ...rest } = draft;
    return number % 2 === 0 ? rest : { ...rest, commonBus: { awg: 12, run: 1 + number } };
  }),
  train: plain(({ draft, number }) =>
    withNew(draft, 'trains', {
      id: freshId(draft, 't') as never,
      name: 'No. 1',
      length: 100 + number,
      amps: 2,
    }),
  ),
  'no train': plain(({ draft, number }) => without(draft, 'trains', picked(draft.trains, number))),
  place: plain(({ draft, node, edge, number }) =>
    withNew(draft, 'places', {
      id: freshId(draft, 'p') as never,
      name: 'Mill',
      order: number,
      at: edge === '' ? [] : [{ edge, toward: node as never }],
    }),
  ),
  setting: plain(({ draft, number }) =>
    withNew(draft, 'settings', {
      id: freshId(draft, 's') as never,
      name: 'Day',
      selectors: draft.selectors.length === 0 ? {} : { [picked(draft.selectors, number)]: 'off' },
      turnouts: {},
      toggles: {},
    }),
  ),
};

const idsOfKind = (draft: DraftDocument, kind: string) => draft.nodes.filter((node) => node.kind === kind);

/**
 * Does one act of a table.
 *
 * @param numbers which act, then four numbers from 0 to 99 for what it is about
 */
export function actOf(
  acts: Readonly<Record<string, Act>>,
  draft: DraftDocument,
  [which = 0, a = 0, b = 0, c = 0, d = 0]: readonly number[],
): { readonly name: string; readonly outcome: Outcome } {
  const names = Object.keys(acts);
  const name = names[which % names.length] ?? '';
  const [node, edge] = [picked(draft.nodes, a), picked(draft.edges, b) as EdgeId];
  const hand: Hand = {
    draft,
    node,
    edge,
    turnout: picked(idsOfKind(draft, 'turnout'), a),
    crossing: picked(idsOfKind(draft, 'crossing'), a),
    block: picked(draft.blocks, a) as BlockId,
    some: new Set([node, edge]),
    spot: [a % 7, b % 7],
    to: [c % 7, d % 7],
    number: d,
  };
  return { name, outcome: acts[name]?.(hand) ?? done(draft) };
}
