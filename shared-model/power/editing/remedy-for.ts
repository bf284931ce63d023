/** The remedy for any finding of the audit, by its code. */
import { type Remedy, trackRemedies } from '../../railroad/editing/remedies.ts';
import { electricalRemedies } from './electrical-remedies.ts';

/** The edit that mends a finding of this draft, where there is one sensible remedy; else null. Its `says` is what its button says. */
export const remedyFor: Remedy = (finding, draft) => {
  const remedy = trackRemedies[finding.code] ?? electricalRemedies[finding.code];
  const edit = remedy?.(finding, draft) ?? null;
  return edit === null || edit.changes.length === 0 ? null : edit;
};
