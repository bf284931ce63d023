/** Where each train was when, by what was reported: the time-distance chart of what really happened. */
import type { NodeId, TrainId } from '../../ids.ts';
import type { Railroad } from '../../railroad/railroad.ts';
import type { Spot } from '../../railroad/travel.ts';
import type { SessionState, TrainNow } from '../../session/state.ts';
import { entriesOf } from '../../session/world.ts';
import type { Millimetres, Seconds } from '../../units.ts';
import { edgesEntered } from '../distance.ts';
import type { EveningReader, Step } from '../pass.ts';
import { distancesFrom, firstNode } from '../track-distance.ts';
import type { TrainLine, TrainPoint } from './chart-data.ts';

interface Line {
  readonly train: TrainId;
  readonly cab: string | null;
  readonly points: TrainPoint[];
}

/** Follows the trains from a state on. */
export class Running implements EveningReader {
  readonly #lines: Line[] = [];
  readonly #open = new Map<TrainId, Line>();
  /** Trains that stand where their line ends, as far as was reported. */
  readonly #standing = new Set<TrainId>();
  readonly #railroad: Railroad;
  readonly #distances: ReadonlyMap<NodeId, Millimetres>;

  constructor(railroad: Railroad, initial: SessionState, from: Seconds) {
    this.#railroad = railroad;
    this.#distances = distancesFrom(railroad, firstNode(railroad));
    for (const [id, train] of entriesOf(initial.trains)) this.#stand(id, train, from);
  }

  take({ before, after, event }: Step): void {
    if (before.trains === after.trains) return;
    const moved = new Set(edgesEntered(before, after, event.input).map(({ id }) => id));
    for (const id of Object.keys(event.changes.trains ?? {}) as TrainId[]) {
      const was = before.trains[id];
      const now = after.trains[id];
      if (now === undefined || !now.placed || now.lost) this.#leave(id);
      else if (was?.placed !== true || was.lost) this.#stand(id, now, event.at);
      else this.#change(id, was, now, moved.has(id), event.at);
    }
  }

  #change(id: TrainId, was: TrainNow, now: TrainNow, moved: boolean, at: Seconds): void {
    const head = now.trail[0]?.toward;
    // A correction: how it came there is not known, so the line breaks.
    if (!moved && was.trail[0]?.toward !== head) this.#stand(id, now, at);
    else {
      const reached = moved ? this.#gapCrossed(now) : now.stopped && !was.stopped ? head : undefined;
      this.#point(id, reached, at);
      if (was.cab !== now.cab) this.#begin(id, now.cab, reached ?? head, at);
      if (moved && !now.stopped) this.#standing.delete(id);
      else if (now.stopped) this.#standing.add(id);
    }
  }

  /** Where the head came into the block that it is in: it is there at the report, and at the far end only later. */
  #gapCrossed({ trail }: TrainNow): NodeId | undefined {
    const block = (spot: Spot) => this.#railroad.blockOfEdge.get(spot.edge);
    const [head] = trail;
    if (head === undefined) return undefined;
    const beyond = trail.findIndex((spot) => block(spot) !== block(head));
    const first = trail[beyond < 0 ? trail.length - 1 : beyond - 1];
    if (first === undefined) return undefined;
    return this.#railroad.edges.get(first.edge)?.between.find((end) => end !== first.toward);
  }

  #stand(id: TrainId, train: TrainNow, at: Seconds): void {
    if (!train.placed || train.lost) return;
    this.#begin(id, train.cab, train.trail[0]?.toward, at);
    this.#standing.add(id);
  }

  #leave(id: TrainId): void {
    this.#open.delete(id);
    this.#standing.delete(id);
  }

  #begin(id: TrainId, cab: string | null, node: NodeId | undefined, at: Seconds): void {
    const line: Line = { train: id, cab, points: [] };
    this.#open.set(id, line);
    this.#lines.push(line);
    this.#point(id, node, at);
  }

  #point(id: TrainId, node: NodeId | undefined, at: Seconds): void {
    const distanceMm = node === undefined ? undefined : this.#distances.get(node);
    if (distanceMm !== undefined) this.#open.get(id)?.points.push({ at, distanceMm });
  }

  /** The lines up to a moment; what still stands then is drawn to it. */
  lines(to: Seconds): readonly TrainLine[] {
    for (const [id, { points }] of this.#open) {
      const last = points.at(-1);
      if (last !== undefined && last.at < to && this.#standing.has(id)) points.push({ ...last, at: to });
    }
    return this.#lines.filter(({ points }) => points.length > 1);
  }
}
