/** The electrical half of the audit: what the wiring, the supplies and the switches make impossible or unwise. */
import type { Railroad } from '../railroad/railroad.ts';
import type { Finding } from '../refusal.ts';
import { auditLoad } from './audit-load.ts';
import { auditPhase } from './audit-phase.ts';
import { auditSwitching } from './audit-switching.ts';
import { auditWire } from './audit-wire.ts';
import type { PairCheck } from './phase-groups.ts';

/**
 * Finds what is wrong electrically, in the order of the table of codes, not by severity.
 *
 * @param railroad indexed from a document whose references are whole
 * @param checks phase checks in the order of measuring
 */
export function electricalAudit(railroad: Railroad, checks: readonly PairCheck[] = []): readonly Finding[] {
  return [
    ...auditPhase(railroad, checks),
    ...auditLoad(railroad),
    ...auditSwitching(railroad),
    ...auditWire(railroad),
  ];
}
