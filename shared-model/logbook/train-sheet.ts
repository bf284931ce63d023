/**
 * The train sheet: the record of the evening with the items of 49 CFR 228.17(a) as far as a model railroad has them
 * (item list from memory, not seen in the text). Weather and timetable it has not; who dispatched is not recorded by the session.
 */
import type { Railroad } from '../railroad/railroad.ts';
import type { SessionEvent } from '../session/event.ts';
import { evolve } from '../session/fold.ts';
import type { ClockNow, SessionState } from '../session/state.ts';
import type { Millimetres, Seconds } from '../units.ts';
import { distanceEntered } from './distance.ts';
import { eventWords } from './event-words.ts';
import { retractedEntries, trainOf } from './figures.ts';

/** `to` null: until the end of what is recorded. */
export interface Duty {
  readonly person: string;
  readonly cab: string;
  readonly from: Seconds;
  readonly to: Seconds | null;
}

/** A train at a reporting point; `railroadMinutes` since its midnight, null where no clock ratio was set. */
export interface Passing {
  readonly train: string;
  readonly place: string;
  readonly arrived: Seconds;
  readonly departed: Seconds | null;
  readonly railroadMinutes: number | null;
  /** By the order of the places, from the place before: null for the first. */
  readonly direction: 'up' | 'down' | null;
  /** Since its reporting point before, by blocks reported; limits left out. */
  readonly distanceMm: Millimetres;
}

export interface Unusual {
  readonly entry: number;
  readonly at: Seconds;
  readonly says: string;
  readonly trains: readonly string[];
}

export interface TrainSheet {
  readonly duties: readonly Duty[];
  readonly passings: readonly Passing[];
  readonly unusual: readonly Unusual[];
}

const UNUSUAL: ReadonlySet<string> = new Set([
  'override',
  'stop-all',
  'resume',
  'stalled',
  'derailed',
  'rerailed',
  'breaker-tripped',
  'breaker-reset',
  'stop-called',
  'tag',
  'untag',
  'settle',
  'note',
]);

const railroadMinutesAt = (clock: ClockNow | null, at: Seconds): number | null =>
  clock === null ? null : (clock.minutes + (clock.runs ? ((at - clock.at) * clock.ratio) / 60 : 0)) % 1440;

/** The place that a train's head is at, or null. */
function placeOf(railroad: Railroad, state: SessionState, train: string): string | null {
  const now = Object.entries(state.trains).find(([id]) => id === train)?.[1];
  const edge = now?.placed === true ? now.trail[0]?.edge : undefined;
  if (edge === undefined) return null;
  return railroad.document.places.find(({ at }) => at.some((spot) => spot.edge === edge))?.id ?? null;
}

function dutyChanges(duties: Duty[], before: SessionState, after: SessionState, at: Seconds): void {
  const earlier = new Map(Object.entries(before.cabs));
  for (const [cab, { person }] of Object.entries(after.cabs)) {
    const was = earlier.get(cab)?.person ?? null;
    if (was === person) continue;
    const open = duties.findLastIndex((duty) => duty.cab === cab && duty.to === null);
    const ended = duties[open];
    if (ended !== undefined) duties[open] = { ...ended, to: at };
    if (person !== null) duties.push({ person, cab, from: at, to: null });
  }
}

class Passings {
  readonly list: Passing[] = [];
  readonly #since = new Map<string, Millimetres>();
  readonly #railroad: Railroad;

  constructor(railroad: Railroad) {
    this.#railroad = railroad;
  }

  moved(id: string, distanceMm: Millimetres): void {
    this.#since.set(id, (this.#since.get(id) ?? 0) + distanceMm);
  }

  changes(before: SessionState, after: SessionState, at: Seconds): void {
    for (const train of Object.keys(after.trains)) {
      const was = placeOf(this.#railroad, before, train);
      const place = placeOf(this.#railroad, after, train);
      if (was === place) continue;
      const last = this.list.findLastIndex((passing) => passing.train === train);
      const left = this.list[last];
      if (left !== undefined && left.departed === null) this.list[last] = { ...left, departed: at };
      if (place === null) continue;
      const railroadMinutes = railroadMinutesAt(after.clock, at);
      const distanceMm = this.#since.get(train) ?? 0;
      this.#since.set(train, 0);
      const direction = left === undefined ? null : this.#direction(left.place, place);
      this.list.push({ train, place, arrived: at, departed: null, railroadMinutes, direction, distanceMm });
    }
  }

  #direction(from: string, to: string): 'up' | 'down' | null {
    const order = (id: string) => this.#railroad.document.places.find((place) => place.id === id)?.order ?? 0;
    const step = order(to) - order(from);
    return step === 0 ? null : step > 0 ? 'up' : 'down';
  }
}

/** Makes the sheet from the fold: entries taken back stand in no list of unusual events. */
export function trainSheet(
  railroad: Railroad,
  initial: SessionState,
  events: readonly SessionEvent[],
): TrainSheet {
  const retracted = retractedEntries(events);
  const duties: Duty[] = [];
  const passings = new Passings(railroad);
  const unusual: Unusual[] = [];
  let state = initial;
  for (const event of events) {
    const after = evolve(state, event);
    const { at, entry, input } = event;
    dutyChanges(duties, state, after, at);
    for (const { id, distanceMm } of distanceEntered(railroad, state, after, input))
      passings.moved(id, distanceMm);
    passings.changes(state, after, at);
    const strange = event.outcome === 'alarm' || (event.outcome === 'done' && UNUSUAL.has(input.do));
    if (strange && !retracted.has(entry)) {
      const train = trainOf(after, input);
      const about = event.reasons.flatMap((reason) => reason.about).filter((id) => id in after.trains);
      const trains = [...new Set([...(train === null ? [] : [train]), ...about])];
      const why = event.reasons.map(({ code, says }) => ` ${code}: ${says}`).join('');
      unusual.push({ entry, at, trains, says: `${eventWords(railroad, after, event)}.${why}` });
    }
    state = after;
  }
  return { duties, passings: passings.list, unusual };
}
