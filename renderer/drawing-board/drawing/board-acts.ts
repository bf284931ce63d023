/** Everything that can be done to the track, for the keys, the pointer and the buttons alike. Each says what it did, or why it cannot. */
import { type LengthSystem, lengthText, readLength } from '../../../shared-model/length-text.ts';
import type { Point } from '../../../shared-model/polyline.ts';
import type { TrackEdge, TrackNode } from '../../../shared-model/railroad/document.ts';
import { type AtSpot, drawEdge, thingAtSpot } from '../../../shared-model/railroad/editing/draw-edge.ts';
import { joinEnds } from '../../../shared-model/railroad/editing/join-ends.ts';
import {
  copyTrack,
  joinMet,
  moveTrack,
  squaresOf,
} from '../../../shared-model/railroad/editing/move-track.ts';
import { openNode } from '../../../shared-model/railroad/editing/open-ends.ts';
import { type Outcome, refused } from '../../../shared-model/railroad/editing/outcome.ts';
import { removeTrack } from '../../../shared-model/railroad/editing/remove-track.ts';
import { renameId } from '../../../shared-model/railroad/editing/rename-id.ts';
import { cutEdge, mergeAt, setJoin } from '../../../shared-model/railroad/editing/split-edge.ts';
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
  slipFormOf,
  swapLegs,
} from '../../../shared-model/railroad/editing/track-acts.ts';
import type { DrawingStore } from '../drawing-store.ts';
import type { Typing } from './hands.ts';

let drags = 0;
/** A mark for the edits of one drag. */
export const dragMark = (): string => {
  drags += 1;
  return `drag ${drags}`;
};

const list = (ids: readonly string[]): string => (ids.length > 3 ? `${ids.length} things` : ids.join(', '));

export function boardActs(store: DrawingStore, system: LengthSystem) {
  const draft = () => store.get().history.draft;
  const hands = () => store.get().hands;
  const under = (): AtSpot => thingAtSpot(draft(), hands().cursor);
  /** Does what an operation gives and selects what it is about; or says why not. */
  const carryOut = (outcome: Outcome, says: string, drag?: string): boolean => {
    if (!outcome.ok) {
      store.say(`Not done: ${outcome.says}.`);
      return false;
    }
    store.change(outcome.draft, says, drag);
    if (outcome.about.length > 0) {
      store.select(outcome.about);
      store.setHands({ passing: true });
    }
    return true;
  };
  /** The node under the cursor, else the only one that is selected. */
  const node = (): TrackNode | null => {
    const there = under();
    if (there?.is === 'node') return there.node;
    const selected = draft().nodes.filter(({ id }) => store.get().selection.has(id));
    return there === null && selected.length === 1 ? (selected[0] ?? null) : null;
  };
  /** What is selected, else what is under the cursor. */
  const things = (): ReadonlySet<string> => {
    const { selection } = store.get();
    if (selection.size > 0) return selection;
    const there = under();
    return new Set(there === null ? [] : [there.is === 'node' ? there.node.id : there.edge]);
  };
  const atNode = (act: (one: TrackNode) => void, words: string) => {
    const one = node();
    if (one === null) store.say(`Not done: ${words} is wanted, under the cursor or selected.`);
    else act(one);
  };
  const edgesOf = (ids: ReadonlySet<string>) => draft().edges.filter(({ id }) => ids.has(id));
  const trainMm = (): number | null =>
    draft().trains.reduce<number | null>((most, { length }) => Math.max(most ?? 0, length), null);

  /** What can be typed for some things: null where it makes no sense for them. A node has no name but its id. */
  const typingFor = (
    what: Typing['what'],
    ids: readonly string[],
    edges: readonly TrackEdge[],
    text?: string,
  ): Typing | null => {
    const [edge] = edges;
    if (what === 'length')
      return edge === undefined
        ? null
        : { what, ids: edges.map(({ id }) => id), text: text ?? lengthText(edge.length, system) };
    const [id] = ids;
    if (id === undefined || ids.length > 1) return null;
    return what === 'name' && edge !== undefined
      ? { what, ids: [id], text: edge.name ?? '' }
      : { what: 'id', ids: [id], text: id };
  };

  const gapOn = (there: AtSpot, kind: 'gap' | 'joint'): boolean => {
    if (there === null) {
      store.say('Not done: there is no track here.');
      return false;
    }
    if (there.is === 'edge')
      return carryOut(cutEdge(draft(), there.edge, there.share, kind), `${kind} in ${there.edge}`);
    const turned = kind === 'gap' && there.node.kind === 'gap' ? 'joint' : kind;
    const words = turned === 'gap' ? `gap at ${there.node.id}` : `no gap at ${there.node.id}`;
    return carryOut(setJoin(draft(), there.node.id, turned), words);
  };

  const acts = {
    carryOut,
    things,
    draw(points: readonly Point[]): boolean {
      const { mmPerSquare } = hands();
      const length = Math.max(1, Math.round(squaresOf(points) * mmPerSquare));
      return carryOut(drawEdge(draft(), points, length), `edge of ${lengthText(length, system)}`);
    },
    /** Puts the pen down at the cursor; when it is down, draws to the cursor and goes on from there. */
    pen() {
      const { pen, cursor } = hands();
      if (pen.length === 0) {
        store.setHands({ pen: [cursor] });
        store.say('Pen down. Go where the track leads; d draws it, b bends it, Esc lifts the pen.');
      } else if (acts.draw([...pen, cursor])) store.setHands({ pen: [cursor] });
    },
    bend() {
      const { pen, cursor } = hands();
      if (pen.length > 0) return store.setHands({ pen: [...pen, cursor] });
      const there = under();
      const at =
        there?.is === 'edge'
          ? there.edge
          : [...store.get().selection].find((id) => edgesOf(new Set([id])).length > 0);
      if (at === undefined) return store.say('Not done: an edge is wanted, under the cursor or selected.');
      const index =
        edgesOf(new Set([at]))[0]?.shape?.findIndex(([x, y]) => x === cursor[0] && y === cursor[1]) ?? -1;
      const outcome = index < 0 ? addBend(draft(), at, cursor) : moveBend(draft(), at, index, null);
      carryOut(outcome, index < 0 ? `bend in ${at}` : `no bend in ${at}`);
    },
    gap: () => gapOn(under() ?? onlySelected(), 'gap'),
    joint: () => gapOn(under() ?? onlySelected(), 'joint'),
    /** What a press on the drawing does in the drawing hand. */
    press: (there: AtSpot) => gapOn(there, 'gap'),
    remove() {
      const ids = things();
      if (carryOut(removeTrack(draft(), ids), `removed ${list([...ids])}`)) store.select([]);
    },
    merge: () => atNode(({ id }) => carryOut(mergeAt(draft(), id), `one edge over ${id}`), 'a joint or gap'),
    trunk: () => atNode(({ id }) => carryOut(nextTrunk(draft(), id), `trunk of ${id}`), 'a turnout'),
    trunkTo: (id: string, edge: string) => carryOut(setTrunk(draft(), id, edge), `trunk of ${id}: ${edge}`),
    swap: () =>
      atNode(({ id }) => carryOut(swapLegs(draft(), id), `normal and reverse of ${id}`), 'a turnout'),
    selfLining: () =>
      atNode((one) => {
        const on = one.kind === 'turnout' && one.selfLining !== true;
        carryOut(setSelfLining(draft(), one.id, on), `${one.id} ${on ? '' : 'not '}self-lining`);
      }, 'a turnout'),
    ways: () => atNode(({ id }) => carryOut(nextWays(draft(), id), `ways of ${id}`), 'a crossing'),
    insulated: () =>
      atNode((one) => {
        const on = one.kind === 'crossing' && !one.insulated;
        carryOut(setInsulated(draft(), one.id, on), `${one.id} ${on ? '' : 'not '}insulated`);
      }, 'a crossing'),
    slips: () =>
      atNode((one) => {
        const now = one.kind === 'crossing' ? slipFormOf(draft(), one) : 'none';
        const next = SLIP_FORMS[(SLIP_FORMS.indexOf(now ?? 'both') + 1) % SLIP_FORMS.length] ?? 'none';
        carryOut(setSlips(draft(), one.id, next), `slips of ${one.id}: ${next}`);
      }, 'a crossing'),
    /** Moves things; of one drag, all are undone as one. */
    moveBy: (ids: ReadonlySet<string>, by: Point, drag: string) =>
      store.change(moveTrack(draft(), ids, by), `moved ${list([...ids])}`, drag),
    /** Joins what was moved with what it met; if that cannot be, it goes back to where it was. */
    putDown(ids: ReadonlySet<string>, drag: string): void {
      const outcome = joinMet(draft(), ids);
      if (outcome.ok) {
        if (outcome.draft !== draft())
          store.change(outcome.draft, `moved and joined ${list([...ids])}`, drag);
      } else {
        store.undo();
        store.say(`Put back: ${outcome.says}.`);
      }
    },
    open(id: string, alsoAt: Point, drag?: string): boolean {
      const outcome = openNode(draft(), id, alsoAt);
      const closes = outcome.ok && outcome.draft.nodes.find((one) => one.id === id)?.alsoAt === undefined;
      return carryOut(outcome, closes ? `${id} drawn once` : `${id} drawn twice`, drag);
    },
    copy(by: Point, drag?: string): Outcome {
      const outcome = copyTrack(draft(), things(), by);
      carryOut(outcome, `copy of ${list([...things()])}`, drag);
      return outcome;
    },
    /** Begins to carry what is meant, a copy of it, or the second end of a node. */
    carry(what: 'move' | 'open' | 'copy') {
      const drag = dragMark();
      if (what === 'open')
        return atNode((one) => {
          if (one.alsoAt !== undefined) acts.open(one.id, one.at);
          else if (acts.open(one.id, [one.at[0], one.at[1] + 1], drag)) {
            store.setHands({
              carrying: { what, ids: new Set([one.id]), drag },
              cursor: [one.at[0], one.at[1] + 1],
            });
          }
        }, 'a joint or gap');
      const ids = things();
      if (what === 'copy') {
        const outcome = acts.copy([0, 2], drag);
        if (!outcome.ok) return;
        const { cursor } = hands();
        store.setHands({
          carrying: { what, ids: new Set(outcome.about), drag },
          cursor: [cursor[0], cursor[1] + 2],
        });
      } else if (ids.size === 0) return store.say('Not done: nothing is selected or under the cursor.');
      else {
        store.select(ids);
        store.setHands({ carrying: { what, ids, drag } });
      }
      store.say('Arrows or a drag carry it; Enter or a press puts it down, Esc puts it back.');
    },
    /** Makes two selected ends of track one spot that is drawn twice. */
    join() {
      const { selection } = store.get();
      const [one, other, third] = draft().nodes.filter(({ id, kind }) => kind === 'end' && selection.has(id));
      if (one === undefined || other === undefined || third !== undefined)
        store.say('Not done: select the two ends of track that are to be one spot.');
      else carryOut(joinEnds(draft(), one.id, other.id), `${one.id} and ${other.id} joined`);
    },
    /** Remembers what is meant, for `paste`. */
    remember() {
      const copied = things();
      store.setHands({ copied });
      store.say(
        copied.size === 0 ? 'Not done: nothing is selected.' : 'Ctrl+V begins to carry a copy of it.',
      );
    },
    /** Begins to carry a copy of what was remembered. */
    paste() {
      const there = new Set<string>([...draft().nodes, ...draft().edges].map(({ id }) => id));
      store.select([...hands().copied].filter((id) => there.has(id)));
      acts.carry('copy');
    },
    select(adding: boolean) {
      const there = under();
      const id = there === null ? null : there.is === 'node' ? there.node.id : there.edge;
      const { selection } = store.get();
      if (id === null) store.select(adding ? selection : []);
      else if (!adding) store.select(selection.has(id) && selection.size === 1 ? [] : [id]);
      else store.select(selection.has(id) ? [...selection].filter((one) => one !== id) : [...selection, id]);
      store.setHands({ passing: false });
    },
    selectAll: () => {
      const { nodes, edges } = draft();
      store.select([...nodes, ...edges].map(({ id }) => id));
      store.setHands({ passing: false });
    },
    /** Begins to type a length, a name or an id for what is meant. */
    type(what: Typing['what'], text?: string): void {
      const ids = things();
      const edges = edgesOf(ids);
      const typing = typingFor(what, [...ids], edges, text);
      if (typing === null)
        store.say(
          `Not done: ${what === 'length' ? 'an edge' : 'one thing'} is wanted, under the cursor or selected.`,
        );
      else store.setHands({ typing });
    },
    /** Takes over what was typed. Answers what is wrong with it, or null. */
    typed({ what, ids, text }: Typing): string | null {
      const [id = ''] = ids;
      let outcome: Outcome;
      if (what === 'length') {
        const read = readLength(text, system, trainMm());
        outcome = read.ok ? setLength(draft(), new Set(ids), read.mm) : refused(read.says);
      } else
        outcome =
          what === 'name' ? setEdgeName(draft(), id, text.trim()) : renameId(draft(), id, text.trim());
      if (!outcome.ok) return outcome.says;
      const was = store.get().selection;
      const words =
        what === 'length'
          ? `length of ${list(ids)}`
          : what === 'name'
            ? `name of ${id}`
            : `${id} is ${text.trim()}`;
      carryOut(outcome, words);
      if (what !== 'id') store.select(was);
      return null;
    },
  };
  /** The one node that is selected, as if the cursor were on it. */
  function onlySelected(): AtSpot {
    const one = node();
    return one === null ? null : { is: 'node', node: one };
  }
  return acts;
}

export type BoardActs = ReturnType<typeof boardActs>;
