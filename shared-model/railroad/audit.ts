/** The structural audit of a railroad document: what can be told from the track and the sources alone. */
import type { Finding } from '../refusal.ts';
import { brokenReferences } from './broken-references.ts';
import type { RailroadDocument } from './document.ts';
import { errorsFirst } from './findings.ts';
import { indexRailroad, type Railroad } from './railroad.ts';
import { auditReversing } from './reversing-sections.ts';
import { auditSources } from './source-audit.ts';
import { auditTravel } from './travel-audit.ts';

/** Structural findings of a railroad whose references are whole; in no special order. */
export function auditStructure(railroad: Railroad): readonly Finding[] {
  return [...auditSources(railroad), ...auditTravel(railroad), ...auditReversing(railroad)];
}

/**
 * The structural audit. Where references are broken nothing else can be judged, so that only those are told.
 *
 * @param document a parsed railroad document
 * @returns findings, errors first
 */
export function audit(document: RailroadDocument): readonly Finding[] {
  const broken = brokenReferences(document);
  return errorsFirst(broken.length > 0 ? broken : auditStructure(indexRailroad(document)));
}
