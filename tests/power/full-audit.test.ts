/** The whole audit: structure and power together. */
import { describe, expect, test } from 'vitest';
import { fullAudit } from '../../shared-model/power/audit.ts';
import { railroadDocument } from '../../shared-model/railroad/document.ts';
import { SEVERITIES } from '../../shared-model/refusal.ts';
import { passingSidingExample } from '../support/example.ts';

describe('the whole audit', () => {
  test('tells structural and electrical findings, errors first', () => {
    const document = railroadDocument.parse({
      ...passingSidingExample,
      commonBus: { awg: 20, run: 6000 },
      trains: [{ id: 't7', name: 'No. 7', length: 100_000, amps: 3.2 }],
    });
    const findings = fullAudit(document);
    const codes = findings.map((finding) => finding.code);
    expect(codes).toEqual(
      expect.arrayContaining(['undersized-wire', 'short-block', 'phase-unknown', 'one-cab-block']),
    );
    const ranks = findings.map((finding) => SEVERITIES.indexOf(finding.severity));
    expect(ranks).toEqual([...ranks].sort());
  });

  test('tells broken references alone, since nothing else can be judged', () => {
    const document = railroadDocument.parse({
      ...passingSidingExample,
      throttles: passingSidingExample.throttles.map((throttle) => ({ ...throttle, supply: 'nowhere' })),
    });
    const codes = new Set(fullAudit(document).map((finding) => finding.code));
    expect([...codes]).toEqual(['broken-reference']);
  });

  test('every finding says something and what to do about it', () => {
    for (const { says, remedy } of fullAudit(passingSidingExample)) {
      expect(says).toMatch(/[.)]$/);
      expect(remedy).toMatch(/\.$/);
    }
  });
});
