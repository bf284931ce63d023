/** Something that is worked on, with what was done to it, so that each act can be taken back. */
import { useCallback, useState } from 'react';

interface Act<State> {
  /** What was done, as it is offered to be taken back: "No. 3 to 8 Ridge". */
  readonly says: string;
  readonly before: State;
  readonly drag: string | undefined;
}

interface Worked<State> {
  readonly now: State;
  readonly acts: readonly Act<State>[];
}

export interface TakenBack<State> {
  readonly now: State;
  /** What was done last and can be taken back; null where there is nothing. */
  readonly last: string | null;
  /** Does something; acts of one `drag` that follow each other are one. */
  readonly act: (says: string, change: (before: State) => State, drag?: string) => void;
  /** Something comes of itself: it is not taken back alone, and ends a drag. */
  readonly comes: (change: (before: State) => State) => void;
  /** Something that holds for good: nothing before it can be taken back any more. */
  readonly holds: (change: (before: State) => State) => void;
  readonly takeBack: () => void;
}

/** Acts that are remembered. */
const MOST_ACTS = 100;

export function useTakenBack<State>(initial: State): TakenBack<State> {
  const [{ now, acts }, set] = useState<Worked<State>>({ now: initial, acts: [] });
  const act = useCallback((says: string, change: (before: State) => State, drag?: string) => {
    set((worked) => {
      const next = change(worked.now);
      if (next === worked.now) return worked;
      const isSame = drag !== undefined && worked.acts.at(-1)?.drag === drag;
      return {
        now: next,
        acts: isSame ? worked.acts : [...worked.acts, { says, before: worked.now, drag }].slice(-MOST_ACTS),
      };
    });
  }, []);
  const comes = useCallback(
    (change: (before: State) => State) =>
      set(({ now: before, acts: done }) => ({
        now: change(before),
        acts: done.map((one) => ({ ...one, drag: undefined })),
      })),
    [],
  );
  const holds = useCallback(
    (change: (before: State) => State) => set((worked) => ({ now: change(worked.now), acts: [] })),
    [],
  );
  const takeBack = useCallback(
    () =>
      set((worked) => {
        const last = worked.acts.at(-1);
        return last === undefined ? worked : { now: last.before, acts: worked.acts.slice(0, -1) };
      }),
    [],
  );
  return { now, last: acts.at(-1)?.says ?? null, act, comes, holds, takeBack };
}
