/** Where the replay stands, and playing it: by the evening's own seconds at a speed, or an event a second. */
import { useCallback, useEffect, useState } from 'react';
import { positionAt } from '../../shared-model/logbook/replay.ts';
import type { SessionEvent } from '../../shared-model/session/event.ts';

export const SPEEDS = ['events', '1', '10', '60'] as const;
export type Speed = (typeof SPEEDS)[number];

const TICK_MS = 100;
const EVENT_MS = 1000;

export interface Player {
  /** How many events have happened, 0 to all of them. */
  readonly position: number;
  readonly playing: boolean;
  readonly speed: Speed;
  readonly go: (position: number) => void;
  readonly setPlaying: (playing: boolean) => void;
  readonly setSpeed: (speed: Speed) => void;
}

export function usePlayer(events: readonly SessionEvent[]): Player {
  const [position, setPosition] = useState(0);
  const [playing, setPlaying] = useState(false);
  const [speed, setSpeed] = useState<Speed>('events');
  const go = useCallback(
    (to: number) => setPosition(Math.max(0, Math.min(events.length, to))),
    [events.length],
  );
  const ended = position >= events.length;

  useEffect(() => {
    if (!playing || ended) return;
    if (speed === 'events') {
      const timer = window.setTimeout(() => go(position + 1), EVENT_MS);
      return () => window.clearTimeout(timer);
    }
    // Wait for the next event only, so that a step or a drag while playing goes on from where it leads.
    const now = events[position - 1]?.at ?? 0;
    const next = events[position]?.at ?? now;
    const wait = Math.max(TICK_MS, ((next - now) / Number(speed)) * 1000);
    const reached = Math.max(next, now + (TICK_MS / 1000) * Number(speed));
    const timer = window.setTimeout(() => go(positionAt(events, reached)), wait);
    return () => window.clearTimeout(timer);
  }, [playing, ended, speed, position, events, go]);

  return { position, playing: playing && !ended, speed, go, setPlaying, setSpeed };
}
