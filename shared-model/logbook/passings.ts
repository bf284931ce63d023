/** Trains at the reporting points: arrived, departed, which way, and how far from the one before. */
import type { NodeId, TrainId } from '../ids.ts';
import type { Railroad } from '../railroad/railroad.ts';
import type { Spot } from '../railroad/travel.ts';
import type { TrainNow } from '../session/state.ts';
import { entriesOf } from '../session/world.ts';
import type { Millimetres, Seconds } from '../units.ts';
import { edgesEntered, lengthOf } from './distance.ts';
import type { EveningReader, Step } from './pass.ts';
import { distancesFrom, firstNode } from './track-distance.ts';

/** A train at a reporting point. */
export interface Passing {
  readonly train: string;
  readonly place: string;
  readonly arrived: Seconds;
  /** Null while it is there. */
  readonly departed: Seconds | null;
  /**
   * By the order of the places, from the place before; where that does not tell, by whether the head came farther from the first place
   * on the track that it came in by. Null for a train that was put there.
   */
  readonly direction: 'up' | 'down' | null;
  /** Since its reporting point before, by blocks reported; limits left out. */
  readonly distanceMm: Millimetres;
}

/** The place that a train's head is at, or null. */
function placeOf(railroad: Railroad, train: TrainNow | undefined): string | null {
  const edge = train?.placed === true ? train.trail[0]?.edge : undefined;
  if (edge === undefined) return null;
  return railroad.document.places.find(({ at }) => at.some((spot) => spot.edge === edge))?.id ?? null;
}

class Passings implements EveningReader {
  readonly passings: Passing[] = [];
  readonly #since = new Map<TrainId, Millimetres>();
  /** Where the newest passing of a train is in the list. */
  readonly #last = new Map<TrainId, number>();
  readonly #railroad: Railroad;
  readonly #distances: ReadonlyMap<NodeId, Millimetres>;

  constructor(railroad: Railroad) {
    this.#railroad = railroad;
    this.#distances = distancesFrom(railroad, firstNode(railroad));
  }

  take({ before, after, event, counts }: Step): void {
    if (before.trains === after.trains) return;
    const moved = edgesEntered(before, after, event.input);
    if (counts)
      for (const { id, edges } of moved)
        this.#since.set(id, (this.#since.get(id) ?? 0) + lengthOf(this.#railroad, edges));
    for (const [id, train] of entriesOf(after.trains)) {
      const was = before.trains[id];
      if (was === train) continue;
      const place = placeOf(this.#railroad, train);
      if (placeOf(this.#railroad, was) === place) continue;
      const cameBy = moved.some((one) => one.id === id) ? train.trail[0] : undefined;
      this.#change(id, place, event.at, cameBy);
    }
  }

  /** @param cameBy the edge that its head came in by; absent where it was put there */
  #change(train: TrainId, place: string | null, at: Seconds, cameBy: Spot | undefined): void {
    const last = this.#last.get(train);
    const left = last === undefined ? undefined : this.passings[last];
    if (last !== undefined && left !== undefined && left.departed === null)
      this.passings[last] = { ...left, departed: at };
    if (place === null) return;
    const direction = (left === undefined ? null : this.#direction(left.place, place)) ?? this.#along(cameBy);
    this.#last.set(train, this.passings.length);
    const distanceMm = this.#since.get(train) ?? 0;
    this.passings.push({ train, place, arrived: at, departed: null, direction, distanceMm });
    this.#since.set(train, 0);
  }

  /** Which way a head lies on an edge; null where the first place is as far from both ends. */
  #along(spot: Spot | undefined): 'up' | 'down' | null {
    const edge = spot === undefined ? undefined : this.#railroad.edges.get(spot.edge);
    const from = edge?.between.find((end) => end !== spot?.toward);
    const [begins, ends] = [from, spot?.toward].map((node) => node && this.#distances.get(node));
    if (begins === undefined || ends === undefined || begins === ends) return null;
    return ends > begins ? 'up' : 'down';
  }

  #direction(from: string, to: string): 'up' | 'down' | null {
    const order = (id: string) => this.#railroad.document.places.find((place) => place.id === id)?.order ?? 0;
    const step = order(to) - order(from);
    return step === 0 ? null : step > 0 ? 'up' : 'down';
  }
}

export const passingReader = (
  railroad: Railroad,
): EveningReader & { readonly passings: readonly Passing[] } => new Passings(railroad);
