/**
 * A queue of numbers, each with the key it is sorted by, the least key first: a binary heap in two flat lists. Of equal keys it
 * is the order of pushing and popping that decides, always in the same way.
 */

export interface NumberHeap {
  push(item: number, key: number): void;
  /** The least key; Infinity when nothing waits. */
  least(): number;
  /** The item with the least key, taken out; -1 when nothing waits. */
  pop(): number;
  /** The same, and its place stays vacant for what is pushed next, if that comes first: less work where most keys are little more. */
  take(): number;
  clear(): void;
}

export function numberHeap(): NumberHeap {
  const keys: number[] = [];
  const items: number[] = [];
  let isVacant = false;
  /** Puts something at the top, and lets it sink to its place. */
  const sink = (key: number, item: number): void => {
    const size = keys.length;
    let place = 0;
    for (let child = 1; child < size; child = 2 * place + 1) {
      if (child + 1 < size && (keys[child + 1] as number) < (keys[child] as number)) child += 1;
      if ((keys[child] as number) >= key) break;
      keys[place] = keys[child] as number;
      items[place] = items[child] as number;
      place = child;
    }
    keys[place] = key;
    items[place] = item;
  };
  const close = (): void => {
    if (!isVacant) return;
    isVacant = false;
    const key = keys.pop() as number;
    const item = items.pop() as number;
    if (keys.length > 0) sink(key, item);
  };
  const take = (): number => {
    close();
    if (keys.length === 0) return -1;
    isVacant = true;
    return items[0] as number;
  };
  return {
    push: (item, key) => {
      if (isVacant) {
        isVacant = false;
        sink(key, item);
        return;
      }
      let place = keys.length;
      keys.push(key);
      items.push(item);
      while (place > 0) {
        const up = (place - 1) >> 1;
        if ((keys[up] as number) <= key) break;
        keys[place] = keys[up] as number;
        items[place] = items[up] as number;
        place = up;
      }
      keys[place] = key;
      items[place] = item;
    },
    least: () => {
      close();
      return keys[0] ?? Number.POSITIVE_INFINITY;
    },
    pop: () => {
      const item = take();
      close();
      return item;
    },
    take,
    clear: () => {
      isVacant = false;
      keys.length = 0;
      items.length = 0;
    },
  };
}
