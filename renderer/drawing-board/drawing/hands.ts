/** What the hands on the drawing are doing: the pointer's hand, the keyboard's cursor and pen, what is carried, and what is being typed. */
import type { Point } from '../../../shared-model/polyline.ts';

/** `draw`: a drag draws track and a press cuts a gap. `arrange`: a drag moves, bends or selects. */
export type Hand = 'draw' | 'arrange';

/** Something that the arrows move until Enter puts it down. */
export interface Carrying {
  readonly what: 'move' | 'open' | 'copy';
  /** What is moved; of a node drawn twice, its id. */
  readonly ids: ReadonlySet<string>;
  /** The mark of this drag in the history. */
  readonly drag: string;
}

/** What is typed on the line below the drawing. */
export interface Typing {
  readonly what: 'length' | 'name' | 'id';
  readonly ids: readonly string[];
  readonly text: string;
}

export interface Hands {
  readonly hand: Hand;
  /** A spot of the sheet, in squares. */
  readonly cursor: Point;
  /** Where the pen went down, and the bends since; empty while it is up. */
  readonly pen: readonly Point[];
  readonly carrying: Carrying | null;
  readonly typing: Typing | null;
  /** Ids of what a copy is made of when it is asked for. */
  readonly copied: ReadonlySet<string>;
  /** The selection came of itself, and goes when the cursor moves on. */
  readonly passing: boolean;
  /** How long one square of new track is. */
  readonly mmPerSquare: number;
}

export const EMPTY_HANDS: Omit<Hands, 'mmPerSquare'> = {
  hand: 'draw',
  cursor: [0, 0],
  pen: [],
  carrying: null,
  typing: null,
  copied: new Set(),
  passing: false,
};
