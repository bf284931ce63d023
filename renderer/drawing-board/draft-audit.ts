/** What follows from a draft, worked out once for each: the index, and the audit or the place where it is no document. */
import { type Malformed, parseValue } from '../../shared-model/malformed.ts';
import { fullAudit } from '../../shared-model/power/audit.ts';
import type { PairCheck } from '../../shared-model/power/phase-groups.ts';
import { railroadDocument } from '../../shared-model/railroad/document.ts';
import type { DraftDocument } from '../../shared-model/railroad/editing/draft.ts';
import { indexRailroad, type Railroad } from '../../shared-model/railroad/railroad.ts';
import type { Finding } from '../../shared-model/refusal.ts';

export interface DraftAudit {
  readonly draft: DraftDocument;
  /** Where the draft is no railroad document, and what was expected there; null when it is one. */
  readonly malformed: Malformed | null;
  readonly findings: readonly Finding[];
}

function onceFor<Value>(make: (draft: DraftDocument) => Value): (draft: DraftDocument) => Value {
  const made = new WeakMap<DraftDocument, Value>();
  return (draft) => {
    const before = made.get(draft);
    if (before !== undefined) return before;
    const value = make(draft);
    made.set(draft, value);
    return value;
  };
}

export const draftRailroad: (draft: DraftDocument) => Railroad = onceFor(indexRailroad);

const auditOf = (draft: DraftDocument, checks: readonly PairCheck[]): DraftAudit => {
  const parsed = parseValue(railroadDocument, draft);
  return parsed.ok
    ? { draft, malformed: null, findings: fullAudit(draft, checks) }
    : { draft, malformed: parsed.malformed, findings: [] };
};

/** Audits of one list of checks; a check that is added begins another. */
const auditsBy = new WeakMap<readonly PairCheck[], (draft: DraftDocument) => DraftAudit>();

/**
 * What the audit says of a draft.
 *
 * @param checks the phase checks that hold; the same list as long as they are the same
 */
export function draftAudit(draft: DraftDocument, checks: readonly PairCheck[]): DraftAudit {
  const known = auditsBy.get(checks) ?? onceFor((one) => auditOf(one, checks));
  auditsBy.set(checks, known);
  return known(draft);
}
