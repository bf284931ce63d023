/** The whole audit of a railroad document: its structure and its power. This is what `check` and the drawing board show. */
import { auditStructure } from '../railroad/audit.ts';
import { brokenReferences } from '../railroad/broken-references.ts';
import type { RailroadDocument } from '../railroad/document.ts';
import { errorsFirst } from '../railroad/findings.ts';
import { indexRailroad } from '../railroad/railroad.ts';
import type { Finding } from '../refusal.ts';
import { electricalAudit } from './electrical-audit.ts';
import type { PairCheck } from './phase-groups.ts';

/**
 * Everything that is wrong or worth knowing. Where references are broken nothing else can be judged, so that only those are told.
 *
 * @param document a parsed railroad document
 * @param checks phase checks in the order of measuring; without them every meeting of two supplies is unknown
 * @returns findings, errors first
 */
export function fullAudit(document: RailroadDocument, checks: readonly PairCheck[] = []): readonly Finding[] {
  const broken = brokenReferences(document);
  if (broken.length > 0) return errorsFirst(broken);
  const railroad = indexRailroad(document);
  return errorsFirst([...auditStructure(railroad), ...electricalAudit(railroad, checks)]);
}
