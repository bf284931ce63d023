/** What to do next on the way from a blank sheet to an evening: one thing, and where it is done. */

import { offDials } from '../../shared-model/railroad/editing/dials.ts';
import type { DraftDocument } from '../../shared-model/railroad/editing/draft.ts';
import type { Finding } from '../../shared-model/refusal.ts';
import { counted } from '../parts/counted.ts';

export interface NextStep {
  readonly says: string;
  /** The sheet, after the railroad's id in the address; null where it is done in the head of the board. */
  readonly sheet: string | null;
}

/**
 * @param findings of the audit of this draft
 * @param published whether a version is published and nothing differs from it
 * @returns null when nothing is left to do but to run trains
 */
export function nextStep(
  draft: DraftDocument,
  findings: readonly Finding[],
  published: boolean,
): NextStep | null {
  const { nodes, edges, blocks, throttles, trains } = draft;
  const step = (says: string, sheet: string | null): NextStep => ({ says, sheet });
  if (edges.length === 0) return step('draw the track', 'track');
  if (blocks.length === 0 && !nodes.some(({ kind }) => kind === 'gap'))
    return step('cut the gaps: press the track where the rail is cut', 'track');
  if (throttles.length === 0) return step('enter the throttles', 'wiring/power');
  const off = offDials(draft);
  if (off.length > 0)
    return step(`put ${off.map(({ name }) => name).join(', ')} on the dials`, 'wiring/power');
  const dead = findings.filter(({ code }) => code === 'dead-track').length;
  if (dead > 0) return step(`feed ${counted(dead, 'piece')} of track`, 'wiring/blocks');
  const errors = findings.filter(({ severity }) => severity === 'error').length;
  if (errors > 0) return step(`mend ${counted(errors, 'error')}`, 'findings');
  if (trains.length === 0) return step('enter a train', 'trains');
  return published ? null : step('publish it', null);
}
