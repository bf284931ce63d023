/** Names instead of ids in what is said of trains, blocks and spots of a rehearsal. */
import type { BlockId, EdgeId, NodeId } from '../../shared-model/ids.ts';
import type { PlanFault } from '../../shared-model/planning/checker/check-plan.ts';
import { blockMarks } from '../../shared-model/railroad/block-marks.ts';
import type { Railroad } from '../../shared-model/railroad/railroad.ts';
import type { Spot } from '../../shared-model/railroad/travel.ts';
import { blockTitle } from '../board/board-words.ts';
import { facingWords, stopsIn } from '../desk/entry-line/spots.ts';

export const trainWords = (railroad: Railroad, id: string): string =>
  railroad.document.trains.find((train) => train.id === id)?.name ?? id;

/** "5 Siding". */
export function blockName(railroad: Railroad, id: string): string {
  const block = railroad.blocks.get(id as BlockId);
  const mark = blockMarks(railroad.document).get(id as BlockId);
  return block === undefined || mark === undefined ? id : blockTitle(mark, block.name);
}

/** "3 Depot Main, facing 4". */
export function spotWords(railroad: Railroad, spot: Spot): string {
  const block = railroad.blockOfEdge.get(spot.edge);
  return `${block === undefined ? spot.edge : blockName(railroad, block)}, ${facingWords(railroad, spot)}`;
}

/** Every spot where a head may stand, in the order of the blocks; spots that would read the same also say their edge. */
export function standingPlaces(
  railroad: Railroad,
): readonly { readonly value: string; readonly says: string }[] {
  const places = railroad.document.blocks.flatMap(({ id }) =>
    stopsIn(railroad, id).map((spot) => ({ spot, says: spotWords(railroad, spot) })),
  );
  return places.map(({ spot, says }) => ({
    value: `${spot.edge} ${spot.toward}`,
    says: places.filter((other) => other.says === says).length > 1 ? `${says} (${spot.edge})` : says,
  }));
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
