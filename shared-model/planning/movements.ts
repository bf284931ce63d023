/** All that one train can do: its standings, numbered as they are found, and the runs between them. Worked out as far as it is asked for. */
import { countedAhead, type Memory } from './memory.ts';
import { type Run, type RunTrain, runsFrom } from './runs.ts';
import { HAIR_MM, type Standing, spotsUnder, standingOn, turnedStanding } from './standing.ts';
import { must, type TrackTable } from './track-table.ts';

/** A run of a numbered standing to another. */
export interface Movement extends Run {
  readonly from: number;
  readonly to: number;
  /** Whether the train changes its facing before it. */
  readonly reversed: boolean;
}

export interface Movements {
  readonly table: TrackTable;
  readonly train: RunTrain;
  /** Standing 0 is where the train stands at first. */
  standing(number: number): Standing;
  /** The runs out of a standing, always the same list. */
  runs(number: number): readonly Movement[];
  /** How many standings were found so far. */
  count(): number;
  /** Whether every list of runs that was asked for is whole: without memory for more they are empty. */
  isWhole(): boolean;
}

/** A standing with the picked-up cars elsewhere: all of them at first, later while the track that is known to be under the train is too short. */
function withBeyond(
  table: TrackTable,
  { lengthMm, beyond = [] }: RunTrain,
  standing: Standing,
  isFirst: boolean,
): Standing {
  if (beyond.length === 0) return standing;
  const knownMm = standing.spots.reduce((sum, spot) => sum + must(table.lengthMm[spot]), 0);
  if (!isFirst && knownMm > lengthMm - HAIR_MM) return standing;
  const under = [...new Set([...standing.under, ...beyond])].sort((one, other) => one - other);
  return { ...standing, under };
}

/** Whether a run leads into a block in which picked-up cars of the train itself still stand. */
const entersItself = ({ enters }: Run, { beyond = [] }: RunTrain, { under }: Standing): boolean =>
  beyond.length > 0 && enters.some(({ resource }) => beyond.includes(resource) && under.includes(resource));

/** What a standing takes: itself, its place in the lists, the text by which it is found again. */
const standingBytes = ({ spots, under }: Standing): number => 400 + 24 * spots.length + 8 * under.length;

/** What a run takes, with all that the searches make of it once: a run of a graph, of a plan, of a way between others. */
const runBytes = ({ enters, clears, wants, levers }: Run): number =>
  900 + 100 * (enters.length + clears.length + levers.length) + 8 * wants.length;

/**
 * The movements of a train from where it stands.
 *
 * @param trail numbers of the spots under it, head first
 * @param reversals whether it may change its facing where it stands; `at-ends`: at ends of track alone
 * @param memory what they have of it stays taken until whoever gave it takes it back
 */
export function movementsOf(
  table: TrackTable,
  train: RunTrain,
  trail: readonly number[],
  reversals: boolean | 'at-ends',
  memory: Memory,
): Movements {
  const standings: Standing[] = [];
  const runs: (readonly Movement[] | undefined)[] = [];
  const numberOf = new Map<string, number>();
  const spend = countedAhead(memory);
  let isWhole = true;
  /** The number of a standing with its head at the end of its first spot, and the tail of the trail left out that is not under it. */
  const numbered = (trail: readonly number[]): number => {
    const spots = spotsUnder(table, trail, 0, train.lengthMm);
    const key = spots.join();
    const known = numberOf.get(key);
    if (known !== undefined) return known;
    numberOf.set(key, standings.length);
    const standing = withBeyond(table, train, standingOn(table, spots, 0), standings.length === 0);
    standings.push(standing);
    isWhole = spend(standingBytes(standing)) && isWhole;
    return standings.length - 1;
  };
  numbered(trail);
  return {
    table,
    train,
    standing: (number) => must(standings[number]),
    runs: (number) => {
      const known = runs[number];
      if (known !== undefined) return known;
      if (!isWhole) return [];
      const standing = must(standings[number]);
      const atEnd = reversals === 'at-ends' && table.ways[must(standing.spots[0])]?.length === 0;
      const facings =
        reversals === true || atEnd
          ? [standing, turnedStanding(table, standing, train.lengthMm)]
          : [standing];
      const made: Movement[] = [];
      for (const [place, facing] of facings.entries()) {
        const ends: number[] = [];
        const endOf = (end: readonly number[]): Standing => {
          ends.push(numbered(end));
          return must(standings[must(ends.at(-1))]);
        };
        for (const [index, run] of runsFrom(table, train, facing, endOf).entries())
          if (!entersItself(run, train, standing))
            made.push({ ...run, from: number, to: must(ends[index]), reversed: place === 1 });
      }
      for (const run of made) isWhole = spend(runBytes(run)) && isWhole;
      runs[number] = made;
      return made;
    },
    count: () => standings.length,
    isWhole: () => isWhole,
  };
}
