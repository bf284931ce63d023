/** What follows from a draft: the index, worked out once for each, and the audit or the place where it is no document. */
import { type Malformed, parseValue } from '../../shared-model/malformed.ts';
import { fullAudit } from '../../shared-model/power/audit.ts';
import type { PairCheck } from '../../shared-model/power/phase-groups.ts';
import { railroadDocument } from '../../shared-model/railroad/document.ts';
import type { DraftDocument } from '../../shared-model/railroad/editing/draft.ts';
import { indexRailroad, type Railroad } from '../../shared-model/railroad/railroad.ts';
import type { Finding } from '../../shared-model/refusal.ts';

export interface DraftVerdict {
  /** Where the draft is no railroad document, and what was expected there; null when it is one. */
  readonly malformed: Malformed | null;
  readonly findings: readonly Finding[];
}

export interface DraftAudit extends DraftVerdict {
  /** The draft that was judged: the newest but for a moment. */
  readonly draft: DraftDocument;
}

const indexed = new WeakMap<DraftDocument, Railroad>();

export function draftRailroad(draft: DraftDocument): Railroad {
  const railroad = indexed.get(draft) ?? indexRailroad(draft);
  indexed.set(draft, railroad);
  return railroad;
}

/**
 * What the audit says of a draft.
 *
 * @param checks the phase checks that hold
 */
export function draftVerdict(draft: DraftDocument, checks: readonly PairCheck[]): DraftVerdict {
  const parsed = parseValue(railroadDocument, draft);
  return parsed.ok
    ? { malformed: null, findings: fullAudit(draft, checks) }
    : { malformed: parsed.malformed, findings: [] };
}
