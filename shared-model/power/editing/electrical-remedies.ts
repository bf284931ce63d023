/** The edits that mend what the audit finds about wire, switches and sources, where there is one sensible thing to do. */
import { blockId } from '../../ids.ts';
import type { DraftDocument } from '../../railroad/editing/draft.ts';
import type { Edit } from '../../railroad/editing/edit.ts';
import { editBetween } from '../../railroad/editing/edit-between.ts';
import { wireOf, withWire } from '../../railroad/editing/feeders.ts';
import { withSource } from '../../railroad/editing/sources.ts';
import { withThing } from '../../railroad/editing/things.ts';
import { indexRailroad } from '../../railroad/railroad.ts';
import type { Finding, FindingCode } from '../../refusal.ts';
import { auditWire } from '../audit-wire.ts';
import { gaugeText, type WirePiece } from '../wire.ts';

type Remedy = (finding: Finding, draft: DraftDocument) => Edit | null;

/** Even gauges that are sold by the roll, lightest first. */
const GAUGES = [14, 12, 10, 8, 6] as const;

const heavier = (pieces: readonly WirePiece[], awg: number): readonly WirePiece[] =>
  pieces.map((piece) => ({ ...piece, awg: Math.min(piece.awg, awg) }));

/** Whether a finding of this code about this place is still there. */
function stays(draft: DraftDocument, { code, about }: Finding, place: number): boolean {
  return auditWire(indexRailroad(draft)).some(
    (other) => other.code === code && about.slice(0, place).every((id, index) => other.about[index] === id),
  );
}

/** The lightest gauge that is enough, for a feeder (about a block and an edge) or for the common bus (about supplies alone). */
const heavierWire: Remedy = (finding, draft) => {
  const [first, edge] = finding.about;
  const block = draft.blocks.find(({ id }) => id === first);
  const change = (awg: number): DraftDocument => {
    if (block === undefined)
      return draft.commonBus === undefined
        ? draft
        : { ...draft, commonBus: { ...draft.commonBus, awg: Math.min(draft.commonBus.awg, awg) } };
    return block.feeders.reduce(
      (so, feeder, index) =>
        feeder.edge === edge ? withWire(so, block.id, index, heavier(wireOf(feeder), awg)) : so,
      draft,
    );
  };
  const isAboutBus = ({ about }: Finding) => !draft.blocks.some(({ id }) => id === about[0]);
  const enough = GAUGES.find((awg) => {
    const after = change(awg);
    return block === undefined
      ? !auditWire(indexRailroad(after)).some((other) => other.code === finding.code && isAboutBus(other))
      : !stays(after, finding, 2);
  });
  if (enough === undefined) return null;
  const where = block === undefined ? 'common bus' : `feeder of ${block.name} at ${edge}`;
  return editBetween(draft, change(enough), `${gaugeText(enough)} for the ${where}`);
};

/** An unwired position between every two throttles that stand side by side on a dial that makes before it breaks. */
const partedPositions: Remedy = ({ severity, about }, draft) => {
  const selector = draft.selectors.find(({ id }) => id === about[0]);
  if (selector === undefined || severity !== 'error') return null;
  const isThrottle = (position: string | null | undefined) =>
    position !== null && position !== undefined && position !== 'off';
  const { positions, stops } = selector;
  const parted = positions.flatMap((position, index) => {
    const next = positions[index + 1] ?? (stops ? null : positions[0]);
    return isThrottle(position) && isThrottle(next) && position !== next ? [position, null] : [position];
  });
  return editBetween(
    draft,
    withThing(draft, 'selectors', selector.id, { positions: parted }),
    `unwired positions between the throttles of selector ${selector.name}`,
  );
};

/** A selector for the block that a finding is chiefly about. */
const ownSelector =
  (which: (finding: Finding, draft: DraftDocument) => string | undefined): Remedy =>
  (finding, draft) => {
    const id = blockId.safeParse(which(finding, draft));
    const after = id.success ? withSource(draft, id.data, { kind: 'selector' }) : null;
    return after?.ok === true ? editBetween(draft, after.draft, `a selector for ${id.data}`) : null;
  };

export const electricalRemedies: { readonly [Code in FindingCode]?: Remedy } = {
  'undersized-wire': heavierWire,
  'voltage-drop': heavierWire,
  'slow-trip': heavierWire,
  'shorting-selector': partedPositions,
  'one-cab-block': ownSelector(({ about }) => about[0]),
  'feed-loop': ownSelector(({ about }, draft) =>
    about.find((id) => draft.blocks.some((block) => block.id === id)),
  ),
};
