/** What SAY shows: the exact words, whom they wait for a read-back from, and whether they must be read from across the room. */
import type { SessionEvent } from '../../shared-model/session/event.ts';
import type { InForce } from '../../shared-model/session/facts/authorities.ts';
import { sayEntry } from '../../shared-model/session/say.ts';
import type { World } from '../../shared-model/session/world.ts';

export interface Spoken {
  /** The entry whose words they are; 0 for words said again. */
  readonly entry: number;
  readonly words: string;
  /** Stop words are in far letters. */
  readonly far: boolean;
}

export interface Saying extends Spoken {
  readonly readBack: InForce | null;
}

const isStop = ({ input, outcome }: SessionEvent): boolean =>
  outcome !== 'refused' && (input.do === 'stop-all' || input.do === 'stop-called');

/**
 * The words of the newest entry that has any.
 *
 * @param before what was found last: its words are kept, since they were spoken of the world as it was then
 * @param timeOf the clock time of a second of the session
 */
export function newestSpoken(
  world: World,
  recent: readonly SessionEvent[],
  before: Spoken | null,
  timeOf: (at: number) => string,
): Spoken | null {
  for (const event of recent.toReversed()) {
    if (before !== null && event.entry <= before.entry) return before;
    const words = sayEntry(world, event, timeOf(event.at));
    if (words !== null) return { entry: event.entry, words, far: isStop(event) };
  }
  return before;
}
