/** Names instead of ids in what is said of trains, blocks and spots of a rehearsal. */
import type { BlockId, EdgeId, NodeId } from '../../shared-model/ids.ts';
import type { PlanFault } from '../../shared-model/planning/checker/check-plan.ts';
import type { Railroad } from '../../shared-model/railroad/railroad.ts';
import type { Spot } from '../../shared-model/railroad/travel.ts';
import { blockName, spotWords, stopsIn } from '../../shared-model/railroad/where-words.ts';

export { blockName } from '../../shared-model/railroad/where-words.ts';

export const trainWords = (railroad: Railroad, id: string): string =>
  railroad.document.trains.find((train) => train.id === id)?.name ?? id;

/** Every spot where a head may stand, in the order of the blocks. */
export function standingPlaces(
  railroad: Railroad,
): readonly { readonly value: string; readonly says: string }[] {
  return railroad.document.blocks.flatMap(({ id }) =>
    stopsIn(railroad, id).map((spot) => ({
      value: `${spot.edge} ${spot.toward}`,
      says: spotWords(railroad, spot),
    })),
  );
}

export function spotOf(value: string): Spot {
  const [edge = '', toward = ''] = value.split(' ');
  return { edge: edge as EdgeId, toward: toward as NodeId };
}

/** "K5 to 2", "H1 on". */
export const throwWords = ({ id, to }: { readonly id: string; readonly to: string | boolean }): string =>
  typeof to === 'boolean' ? `${id} ${to ? 'on' : 'off'}` : `${id} to ${to}`;

/** A sentence of the checker's or of the parser's with names in place of the ids that it is about. */
export function named(railroad: Railroad, says: string): string {
  return says.replace(/[\w-]+/g, (word) => {
    if (railroad.trains.has(word as never)) return trainWords(railroad, word);
    if (railroad.blocks.has(word as BlockId)) return blockName(railroad, word);
    return railroad.document.selectors.some(({ id }) => id === word)
      ? `selector ${railroad.document.selectors.find(({ id }) => id === word)?.name ?? word}`
      : word;
  });
}

/** Times of the checker's, given to a thousandth, as they are read on the chart. */
export const faultWords = (railroad: Railroad, { says }: PlanFault): string =>
  `${named(railroad, says).replace(/\d+\.\d+/g, (number) => `${Number(number).toFixed(1)} s`)}.`;

/** Feet and inches, or metres, as the user reads lengths. */
export function lengthWords(mm: number, lengths: 'metric' | 'imperial'): string {
  if (lengths === 'metric') return `${(mm / 1000).toFixed(1)} m`;
  const inches = Math.round(mm / 25.4);
  return `${Math.floor(inches / 12)}′ ${inches % 12}″`;
}
