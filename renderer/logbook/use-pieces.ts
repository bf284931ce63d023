/**
 * An evening read a piece at a time: the state where the piece begins, and its entries. Any moment in it is a short fold away,
 * so an evening of a million entries takes no longer to scrub through than one of a thousand.
 */
import { useCallback, useEffect, useRef, useState } from 'react';
import { CHECKPOINT_EVERY, type Replay, replayOf, stateAfter } from '../../shared-model/logbook/replay.ts';
import type { SessionEvent } from '../../shared-model/session/event.ts';
import type { SessionState } from '../../shared-model/session/state.ts';
import type { Connection } from '../../shared-model/wire/contract.ts';
import { useConsoleStore } from '../console/use-console.tsx';
import type { OpenedEvening } from './use-evening.ts';

/** As far apart as the host keeps states: each piece begins at one. */
const PIECE = CHECKPOINT_EVERY;
/** Pieces kept; those looked at longest ago are let go. */
const KEPT = 20;
/** A piece beside the one shown is fetched when the moment comes so near to it. */
const NEAR = 60;

export interface Pieces {
  /** The state after so many entries; null while that piece is on its way. */
  readonly stateAt: (position: number) => SessionState | null;
  /** An entry by its number; null while it is not here. */
  readonly event: (entry: number) => SessionEvent | null;
  /** Entries `from` to `to`, both included, as far as they are here. */
  readonly events: (from: number, to: number) => readonly SessionEvent[];
  readonly problem: string | null;
  /** Another number whenever more of the evening is here. */
  readonly loads: number;
}

const pieceOf = (position: number): number => Math.floor(position / PIECE);

async function readPiece(connection: Connection, id: string, piece: number, entries: number) {
  const start = piece * PIECE;
  const to = Math.min(start + PIECE, entries);
  const [state, events] = await Promise.all([
    connection.call('evenings.stateAt', { id, entry: start }),
    start >= to
      ? ({ ok: true, value: [] } as const)
      : connection.call('evenings.events', { id, from: start + 1, to }),
  ]);
  if (!state.ok) return state;
  if (!events.ok) return events;
  return { ok: true, value: replayOf(state.value.state, events.value) } as const;
}

/** The pieces that a moment needs, the one that it is in first. */
function neededAt(position: number, entries: number): readonly number[] {
  const here = pieceOf(position);
  const within = position % PIECE;
  return [
    here,
    ...(within > PIECE - NEAR && (here + 1) * PIECE < entries ? [here + 1] : []),
    ...(within < NEAR && here > 0 ? [here - 1] : []),
  ];
}

/** @param position the moment that is wanted now: its piece is fetched, and those on the way to it no longer wanted are not */
export function usePieces({ card }: OpenedEvening, position: number): Pieces {
  const { connection } = useConsoleStore();
  const { id, entries } = card;
  const kept = useRef(new Map<number, Replay>());
  const wanted = useRef<readonly number[]>([]);
  const busy = useRef(false);
  const [loads, setLoads] = useState(0);
  const [problem, setProblem] = useState<string | null>(null);

  const fetchWanted = useCallback(async () => {
    if (busy.current) return;
    busy.current = true;
    for (;;) {
      const piece = wanted.current.find((one) => !kept.current.has(one));
      if (piece === undefined) break;
      const read = await readPiece(connection, id, piece, entries);
      if (!read.ok) {
        setProblem(read.problem.says);
        break;
      }
      kept.current.set(piece, read.value);
      const old = [...kept.current.keys()].filter((one) => !wanted.current.includes(one));
      for (const one of old.slice(0, Math.max(0, kept.current.size - KEPT))) kept.current.delete(one);
      setLoads((before) => before + 1);
    }
    busy.current = false;
  }, [connection, id, entries]);
  useEffect(() => {
    wanted.current = neededAt(position, entries);
    void fetchWanted();
  }, [position, entries, fetchWanted]);

  const event = (entry: number): SessionEvent | null =>
    kept.current.get(pieceOf(entry - 1))?.events[(entry - 1) % PIECE] ?? null;
  return {
    stateAt: (at) => {
      const replay = kept.current.get(pieceOf(at));
      return replay === undefined ? null : stateAfter(replay, at % PIECE);
    },
    event,
    events: (from, to) =>
      Array.from({ length: Math.max(0, Math.min(to, entries) - Math.max(1, from) + 1) }, (_, index) =>
        event(Math.max(1, from) + index),
      ).filter((one) => one !== null),
    problem,
    loads,
  };
}
