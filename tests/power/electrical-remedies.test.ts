/** Electrical faults planted on purpose: each is found, and its remedy makes the finding go away without bringing another error. */
import { describe, expect, test } from 'vitest';
import { fullAudit } from '../../shared-model/power/audit.ts';
import { electricalRemedies } from '../../shared-model/power/editing/electrical-remedies.ts';
import type { RailroadDocument } from '../../shared-model/railroad/document.ts';
import { applyEdit } from '../../shared-model/railroad/editing/edit.ts';
import type { FindingCode } from '../../shared-model/refusal.ts';
import { passingSidingExample } from '../support/example.ts';

const changed = (change: (document: RailroadDocument) => void): RailroadDocument => {
  const document = structuredClone(passingSidingExample);
  change(document);
  return document;
};
const feederOf = (document: RailroadDocument, block: number) => {
  const feeder = document.blocks[block]?.feeders[0];
  if (feeder === undefined) throw new Error('the example has a feeder there');
  return feeder;
};

const PLANTED: readonly (readonly [string, FindingCode, RailroadDocument])[] = [
  [
    'wire too light for the breaker',
    'undersized-wire',
    changed((document) => Object.assign(feederOf(document, 0), { wire: { awg: 20, run: 3600 } })),
  ],
  [
    'a common bus too light for the breaker',
    'undersized-wire',
    changed((document) => Object.assign(document, { commonBus: { awg: 18, run: 3000 } })),
  ],
  [
    'a run so long that the train slows down',
    'voltage-drop',
    changed((document) => Object.assign(feederOf(document, 1), { wire: { awg: 14, run: 60_000 } })),
  ],
  [
    'a far end at which the breaker is slow',
    'slow-trip',
    changed((document) => Object.assign(feederOf(document, 1), { wire: { awg: 16, run: 60_000 } })),
  ],
  [
    'a dial that makes before it breaks',
    'shorting-selector',
    changed((document) => Object.assign(document.selectors[0] ?? {}, { contacts: 'make-before-break' })),
  ],
  ['a block wired straight to a throttle', 'one-cab-block', passingSidingExample],
  [
    'toggles that feed each other in a circle',
    'feed-loop',
    changed((document) => {
      document.toggles.push({ id: 'H1' as never, name: 'Hold 1' }, { id: 'H2' as never, name: 'Hold 2' });
      Object.assign(document.blocks[0] ?? {}, { source: { toggle: 'H1', from: 'B2' } });
      Object.assign(document.blocks[1] ?? {}, { source: { toggle: 'H2', from: 'B1' } });
    }),
  ],
];

describe('a planted fault', () => {
  test.each(PLANTED)('%s is %s, and its button mends it', (_, code, document) => {
    const before = fullAudit(document);
    const [found] = before.filter((finding) => finding.code === code);
    if (found === undefined) throw new Error(`no ${code}`);
    const edit = electricalRemedies[code]?.(found, document);
    if (edit === null || edit === undefined) throw new Error('no remedy');
    const after = fullAudit(applyEdit(document, edit));
    expect(after).not.toContainEqual(expect.objectContaining({ code, about: found.about }));
    const errors = (findings: typeof after) => findings.filter(({ severity }) => severity === 'error').length;
    expect(errors(after)).toBeLessThanOrEqual(errors(before));
  });

  test('a gauge that is enough is the lightest one', () => {
    const document = PLANTED[0]?.[2] ?? passingSidingExample;
    const [found] = fullAudit(document).filter(({ code }) => code === 'undersized-wire');
    const edit = found === undefined ? null : electricalRemedies['undersized-wire']?.(found, document);
    expect(edit?.says).toBe('AWG 14 for the feeder of West end at e1');
  });

  test('contacts that nobody has looked at have no button: somebody has to look', () => {
    const [found] = fullAudit(passingSidingExample).filter(({ code }) => code === 'shorting-selector');
    if (found === undefined) throw new Error('the example says nothing of its contacts');
    expect(electricalRemedies['shorting-selector']?.(found, passingSidingExample)).toBeNull();
  });
});
