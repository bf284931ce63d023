/** Things by the boxes that they fill, so that those near a box are found without looking at all of them. */

export interface Box {
  readonly left: number;
  readonly top: number;
  readonly right: number;
  readonly bottom: number;
}

export interface BoxGrid<Item> {
  readonly add: (box: Box, item: Item) => void;
  /** Whether something whose box may touch this one passes a test. */
  readonly some: (box: Box, test: (item: Item) => boolean) => boolean;
  /** Everything whose box may touch this one, each once, in no order. */
  readonly near: (box: Box) => readonly Item[];
}

const CELL_PX = 48;
/** More cells than a drawing is high: a cell's number is its column times this and its row. */
const ROWS = 1 << 20;

/** Calls back with the number of each cell that a finite box touches, until one answers true. */
function someCell({ left, top, right, bottom }: Box, test: (cell: number) => boolean): boolean {
  const [x1, y1] = [Math.floor(right / CELL_PX), Math.floor(bottom / CELL_PX)];
  for (let x = Math.floor(left / CELL_PX); x <= x1; x += 1)
    for (let y = Math.floor(top / CELL_PX); y <= y1; y += 1) if (test(x * ROWS + y)) return true;
  return false;
}

export function boxGrid<Item>(): BoxGrid<Item> {
  const byCell = new Map<number, Item[]>();
  const some: BoxGrid<Item>['some'] = (box, test) =>
    someCell(box, (cell) => byCell.get(cell)?.some(test) ?? false);
  return {
    add: (box, item) =>
      void someCell(box, (cell) => {
        const there = byCell.get(cell);
        if (there === undefined) byCell.set(cell, [item]);
        else there.push(item);
        return false;
      }),
    some,
    near(box) {
      const found = new Set<Item>();
      some(box, (item) => {
        found.add(item);
        return false;
      });
      return [...found];
    },
  };
}
