/** Operations on the feeders of a draft: where each ends and what wire it is of. A feeder is known by its block and its place in the list. */
import type { BlockId } from '../../ids.ts';
import type { Block, RailroadDocument } from '../document.ts';
import type { DraftDocument } from './draft.ts';
import { type Fields, withThing } from './things.ts';

export type Feeder = Block['feeders'][number];
export type WirePiece = NonNullable<RailroadDocument['commonBus']>;

/** The wire of a feeder as a list; none where it is not given. */
export function wireOf({ wire }: Feeder): readonly WirePiece[] {
  if (wire === undefined) return [];
  return Array.isArray(wire) ? wire : [wire];
}

/** A list of pieces as the file has it: absent, one, or several. */
const asWire = (pieces: readonly WirePiece[]): Feeder['wire'] =>
  pieces.length === 1 ? pieces[0] : pieces.length === 0 ? undefined : [...pieces];

function withFeeders(
  draft: DraftDocument,
  block: BlockId,
  change: (feeders: readonly Feeder[]) => readonly Feeder[],
): DraftDocument {
  const feeders = draft.blocks.find(({ id }) => id === block)?.feeders ?? [];
  return withThing(draft, 'blocks', block, { feeders: [...change(feeders)] });
}

/** One feeder more, without wire yet. */
export const withFeeder = (draft: DraftDocument, block: BlockId, edge: Feeder['edge']): DraftDocument =>
  withFeeders(draft, block, (feeders) => [...feeders, { edge }]);

export const withoutFeeder = (draft: DraftDocument, block: BlockId, index: number): DraftDocument =>
  withFeeders(draft, block, (feeders) => feeders.filter((_, at) => at !== index));

/** A feeder with some of its fields changed; those given as undefined go. */
export const withFeederFields = (
  draft: DraftDocument,
  block: BlockId,
  index: number,
  fields: Fields<Feeder>,
): DraftDocument =>
  withFeeders(draft, block, (feeders) =>
    feeders.map((feeder, at) => {
      if (at !== index) return feeder;
      const next = Object.entries({ ...feeder, ...fields }).filter(([, value]) => value !== undefined);
      return Object.fromEntries(next) as Feeder;
    }),
  );

/** A feeder with another list of pieces; none: its wire is not known. */
export const withWire = (
  draft: DraftDocument,
  block: BlockId,
  index: number,
  pieces: readonly WirePiece[],
): DraftDocument => withFeederFields(draft, block, index, { wire: asWire(pieces) });

/** The same wire for every feeder whose wire is not given yet. */
export function withWireWhereMissing(draft: DraftDocument, piece: WirePiece): DraftDocument {
  return draft.blocks.reduce(
    (so, { id, feeders }) =>
      feeders.some(({ wire }) => wire === undefined)
        ? withFeeders(so, id, (each) =>
            each.map((feeder) => (feeder.wire === undefined ? { ...feeder, wire: piece } : feeder)),
          )
        : so,
    draft,
  );
}
