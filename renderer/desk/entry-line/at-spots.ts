/** Where a train or a cut stands, as a line says it: a block, a place or an edge, and the way it faces. */
import type { Spot } from '../../../shared-model/railroad/travel.ts';
import { facingWords } from '../../../shared-model/railroad/where-words.ts';
import type { SessionInput } from '../../../shared-model/session/input.ts';
import { type LineContext, type Proposal, send } from './reading.ts';
import { type Said, trainOf } from './said.ts';
import { thing, word } from './slots.ts';
import { meantSpots } from './spots.ts';

export const facing = [word('facing', 'toward'), thing('facing', ['block', 'node'], 'the block it faces')];

/** One proposal for each spot that may be meant, each with its facing where there are several. */
export function atSpots(
  said: Said,
  context: LineContext,
  says: string,
  input: (spot: Spot) => SessionInput,
): readonly Proposal[] | string {
  const spots = meantSpots(context, {
    where: said.thing('where'),
    train: trainOf(said),
    facing: said.has('facing') ? said.thing('facing') : null,
  });
  if (spots.length === 0) return `Nothing can stand in ${said.thing('where').label} like that.`;
  const words = spots.map((spot) => facingWords(context.railroad, spot));
  return spots.map((spot, index) => {
    const own = words[index] ?? '';
    const alike = words.filter((other) => other === own).length > 1;
    return send(`${says}, ${own}${alike ? ` by ${spot.toward}` : ''}`, input(spot));
  });
}

export const where = thing('where', ['block', 'place', 'edge'], 'a block or a place');
