/** A binary heap of numbers, each with the key it is sorted by; the one with the least key comes first. */

export interface NumberHeap {
  push(item: number, key: number): void;
  /** The item with the least key, taken out; -1 where none is left. */
  pop(): number;
  clear(): void;
}

export function numberHeap(): NumberHeap {
  const items: number[] = [];
  const keys: number[] = [];
  return {
    push: (item, key) => {
      let place = items.length;
      items.push(item);
      keys.push(key);
      while (place > 0) {
        const above = (place - 1) >> 1;
        if ((keys[above] as number) <= key) break;
        items[place] = items[above] as number;
        keys[place] = keys[above] as number;
        place = above;
      }
      items[place] = item;
      keys[place] = key;
    },
    pop: () => {
      const first = items[0];
      if (first === undefined) return -1;
      const item = items.pop() as number;
      const key = keys.pop() as number;
      const size = items.length;
      if (size === 0) return first;
      let place = 0;
      for (let below = 1; below < size; below = place * 2 + 1) {
        if (below + 1 < size && (keys[below + 1] as number) < (keys[below] as number)) below += 1;
        if ((keys[below] as number) >= key) break;
        items[place] = items[below] as number;
        keys[place] = keys[below] as number;
        place = below;
      }
      items[place] = item;
      keys[place] = key;
      return first;
    },
    clear: () => {
      items.length = 0;
      keys.length = 0;
    },
  };
}
