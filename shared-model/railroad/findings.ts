/** Making findings of the audit, and the order in which they are told. */
import { FINDING_CODES, type Finding, type FindingCode, SEVERITIES, type Severity } from '../refusal.ts';

/** A finding of one code and severity; `about` names the things it concerns, the chief one first. */
export const finding =
  (code: FindingCode, severity: Severity) =>
  (about: readonly string[], says: string, remedy: string): Finding => ({
    code,
    severity,
    about,
    says,
    remedy,
  });

/** Errors first, then warnings, then information; within each by the order of the codes, then as they were found. */
export function errorsFirst(findings: readonly Finding[]): readonly Finding[] {
  const rank = (one: Finding): number =>
    SEVERITIES.indexOf(one.severity) * FINDING_CODES.length + FINDING_CODES.indexOf(one.code);
  return [...findings].sort((a, b) => rank(a) - rank(b));
}

const MOST_NAMED = 8;

/** A list of ids in words; a long one is cut in the middle and says how many are left out. */
export function inWords(ids: readonly string[]): string {
  if (ids.length <= MOST_NAMED) return ids.join(', ');
  const half = MOST_NAMED / 2;
  return `${ids.slice(0, half).join(', ')}, … (${ids.length - MOST_NAMED} more) …, ${ids.slice(-half).join(', ')}`;
}
