/** The keys of the drawing: letters for acts, arrows for the cursor. One table, for the hands and for the list that is shown. */
import type { Point } from '../../../shared-model/polyline.ts';
import { openNode } from '../../../shared-model/railroad/editing/open-ends.ts';
import type { DrawingStore } from '../drawing-store.ts';
import type { BoardActs } from './board-acts.ts';
import { snapped } from './sight.ts';

export interface KeyRow {
  readonly key: string;
  readonly says: string;
  readonly act: (acts: BoardActs, store: DrawingStore) => void;
}

const row = (key: string, says: string, act: KeyRow['act']): KeyRow => ({ key, says, act });

/** Letters, in the order in which they are shown. */
export const BOARD_KEYS: readonly KeyRow[] = [
  row('d', 'pen down; then draw to the cursor and go on', (acts) => acts.pen()),
  row('b', 'bend here, in the edge or under the pen; a bend here goes', (acts) => acts.bend()),
  row('g', 'cut a gap here; a gap becomes a joint', (acts) => void acts.gap()),
  row('j', 'joint here; a gap becomes a joint', (acts) => void acts.joint()),
  row('e', 'one edge where two meet', (acts) => acts.merge()),
  row('l', 'length (or begin with a digit)', (acts) => acts.type('length')),
  row('n', 'name of an edge', (acts) => acts.type('name')),
  row('k', 'id: what it is called in the entry line and on labels', (acts) => acts.type('id')),
  row('t', 'next trunk of the turnout', (acts) => acts.trunk()),
  row('r', 'swap normal and reverse', (acts) => acts.swap()),
  row('f', 'self-lining, or not', (acts) => acts.selfLining()),
  row('w', 'next ways across the crossing', (acts) => acts.ways()),
  row('i', 'crossing insulated, or not', (acts) => acts.insulated()),
  row('p', 'slips: none, one, other, both', (acts) => acts.slips()),
  row('o', 'draw a joint or gap twice, to cut a loop open; again: once', (acts) => acts.carry('open')),
  row('y', 'join the two ends of track that are selected: a line becomes a loop', (acts) => acts.join()),
  row('s', 'select what is here; S adds it', (acts) => acts.select(false)),
  row('S', 'add it to the selection', (acts) => acts.select(true)),
  row('a', 'select all', (acts) => acts.selectAll()),
  row('m', 'carry what is selected', (acts) => acts.carry('move')),
  row('c', 'carry a copy of it', (acts) => acts.carry('copy')),
  row('x', 'remove (Delete too)', (acts) => acts.remove()),
  row('u', 'undo; U does it again', (_acts, store) => store.undo()),
  row('U', 'do it again', (_acts, store) => store.redo()),
  row('v', 'the pointer draws, or arranges', (_acts, store) =>
    store.setHands({ hand: store.get().hands.hand === 'draw' ? 'arrange' : 'draw' }),
  ),
];

/** The keys that are no letters, for the list. */
export const OTHER_KEYS: readonly (readonly [key: string, says: string])[] = [
  ['arrows', 'move the cursor one square; with Shift five'],
  ['Enter', 'put down what is carried; else draw, like d'],
  ['Esc', 'lift the pen, put back what is carried, select nothing'],
  ['+ −', 'zoom; Home shows the whole drawing'],
  ['Ctrl+arrows', 'pan; by pointer the middle button, or any with Space held'],
  ['Ctrl+C Ctrl+V', 'remember what is selected; carry a copy of it'],
];

const STEPS: Readonly<Record<string, Point>> = {
  ArrowLeft: [-1, 0],
  ArrowRight: [1, 0],
  ArrowUp: [0, -1],
  ArrowDown: [0, 1],
};
const FAR = 5;

export const stepOf = (key: string): Point | undefined => STEPS[key];

/** Moves the cursor by a step, with what is carried; the pen's line follows it. */
export function moveCursor(store: DrawingStore, acts: BoardActs, [dx, dy]: Point, far: boolean): void {
  const { cursor, carrying, passing } = store.get().hands;
  const by: Point = far ? [dx * FAR, dy * FAR] : [dx, dy];
  const [x, y] = carrying === null ? snapped(cursor) : cursor;
  const to: Point = [x + by[0], y + by[1]];
  if (carrying?.what === 'open') {
    const [id = ''] = [...carrying.ids];
    acts.carryOut(openNode(store.get().history.draft, id, to), `${id} drawn twice`, carrying.drag);
  } else if (carrying !== null) acts.moveBy(carrying.ids, by, carrying.drag);
  else if (passing) store.select([]);
  store.setHands({ cursor: to, passing: passing && carrying !== null });
}

/** Enter: puts down what is carried, else does what the pen does. */
export function putDownOrDraw(store: DrawingStore, acts: BoardActs): void {
  const { carrying } = store.get().hands;
  if (carrying === null) {
    acts.pen();
    return;
  }
  store.setHands({ carrying: null });
  if (carrying.what !== 'open') acts.putDown(carrying.ids, carrying.drag);
}

/** Esc: one thing after the other is let go. */
export function letGo(store: DrawingStore): void {
  const { carrying, pen } = store.get().hands;
  if (carrying !== null) {
    const last = store.get().history.done.at(-1);
    if (last?.drag === carrying.drag) store.undo();
    store.setHands({ carrying: null });
  } else if (pen.length > 0) {
    store.setHands({ pen: [] });
    store.say('Pen up.');
  } else {
    store.select([]);
    store.pick(null);
  }
}
