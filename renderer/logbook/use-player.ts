/** Where the replay stands, and playing it: by the evening's own seconds at a speed, or an event a second. */
import { useCallback, useEffect, useState } from 'react';
import type { SessionEvent } from '../../shared-model/session/event.ts';

export const SPEEDS = ['events', '1', '10', '60'] as const;
export type Speed = (typeof SPEEDS)[number];

const TICK_MS = 100;
const EVENT_MS = 1000;
/** Most entries in one tick: what is played is still seen. */
const MOST_AT_ONCE = 50;

export interface Player {
  /** How many events have happened, 0 to all of them. */
  readonly position: number;
  readonly playing: boolean;
  readonly speed: Speed;
  readonly go: (position: number) => void;
  readonly setPlaying: (playing: boolean) => void;
  readonly setSpeed: (speed: Speed) => void;
}

type EventOf = (entry: number) => SessionEvent | null;

/** The last entry that is here and has happened by a second; at least the next one. */
function reachedBy(event: EventOf, position: number, seconds: number): number {
  let reached = position + 1;
  while (reached < position + MOST_AT_ONCE) {
    const next = event(reached + 1);
    if (next === null || next.at > seconds) break;
    reached += 1;
  }
  return reached;
}

export function usePosition(entries: number) {
  const [position, setPosition] = useState(0);
  const go = useCallback((to: number) => setPosition(Math.max(0, Math.min(entries, to))), [entries]);
  return { position, go };
}

/** @param event an entry by its number; null while it is on its way: playing waits for it */
export function usePlayer(
  entries: number,
  { position, go }: ReturnType<typeof usePosition>,
  event: EventOf,
): Player {
  const [playing, setPlaying] = useState(false);
  const [speed, setSpeed] = useState<Speed>('events');
  const ended = position >= entries;
  const now = event(position)?.at ?? 0;
  const next = event(position + 1);

  useEffect(() => {
    if (!playing || ended || next === null) return;
    if (speed === 'events') {
      const timer = window.setTimeout(() => go(position + 1), EVENT_MS);
      return () => window.clearTimeout(timer);
    }
    // Wait for the next event only, so that a step or a drag while playing goes on from where it leads.
    const wait = Math.max(TICK_MS, ((next.at - now) / Number(speed)) * 1000);
    const until = Math.max(next.at, now + (TICK_MS / 1000) * Number(speed));
    const timer = window.setTimeout(() => go(reachedBy(event, position, until)), wait);
    return () => window.clearTimeout(timer);
  }, [playing, ended, speed, position, now, next, event, go]);

  return { position, playing: playing && !ended, speed, go, setPlaying, setSpeed };
}
