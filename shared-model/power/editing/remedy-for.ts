/** The remedy for any finding of the audit, by its code. */
import { type Remedy, trackRemedies } from '../../railroad/editing/remedies.ts';

const REMEDIES: typeof trackRemedies = { ...trackRemedies };

/** The edit that mends a finding of this draft, where there is one sensible remedy; else null. Its `says` is what its button says. */
export const remedyFor: Remedy = (finding, draft) => {
  const edit = REMEDIES[finding.code]?.(finding, draft) ?? null;
  return edit === null || edit.changes.length === 0 ? null : edit;
};
