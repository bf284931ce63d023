/** What things are called in a report of an evening. */
import type { NodeId, ThrottleId } from '../ids.ts';
import type { Railroad } from '../railroad/railroad.ts';
import { gapWords } from '../railroad/where-words.ts';
import { spokenBlock } from '../session/say.ts';
import type { Millimetres } from '../units.ts';
import { blockOfThing } from './charged.ts';
import { scaleKilometres, scaleMiles } from './distance.ts';

/** The user's units of length. */
export type Lengths = 'metric' | 'imperial';

export interface Names {
  /** Null is nobody: an empty text. */
  readonly train: (id: string | null) => string;
  readonly cab: (id: string | null) => string;
  readonly place: (id: string) => string;
  /** A block by its mark, a gap by the blocks that it parts, anything else by its id and the block that it lies in or feeds; null is the dispatcher. */
  readonly thing: (id: string | null) => string;
  /** A distance run, in scale miles or scale kilometres. */
  readonly distance: (lengthMm: Millimetres) => string;
  /** "scale miles" or "scale km". */
  readonly distanceUnit: string;
}

/** @param trains names of the trains, those added tonight among them */
export function namesOf(railroad: Railroad, trains: ReadonlyMap<string, string>, lengths: Lengths): Names {
  const { scaleRatio, places } = railroad.document;
  const metric = lengths === 'metric';
  return {
    train: (id) => (id === null ? '' : (trains.get(id) ?? id)),
    cab: (id) => (id === null ? '' : (railroad.throttles.get(id as ThrottleId)?.name ?? id)),
    place: (id) => places.find((one) => one.id === id)?.name ?? id,
    thing: (id) => {
      if (id === null) return 'the dispatcher';
      const block = blockOfThing(railroad, id);
      if (railroad.nodes.get(id as NodeId)?.kind === 'gap') return gapWords(railroad, id);
      if (block === null) return id;
      return `${block === id ? '' : `${id}, `}block ${spokenBlock(railroad, block)}`;
    },
    distance: (lengthMm) =>
      (metric ? scaleKilometres(lengthMm, scaleRatio) : scaleMiles(lengthMm, scaleRatio)).toFixed(2),
    distanceUnit: metric ? 'scale km' : 'scale miles',
  };
}
