/** Each code of the audit made on purpose: what it says, whether it has a button, and that the button mends it and nothing more. */
import { expect, test } from 'vitest';
import { fullAudit } from '../../../shared-model/power/audit.ts';
import { remedyFor } from '../../../shared-model/power/editing/remedy-for.ts';
import { applyEdit, inverseOf } from '../../../shared-model/railroad/editing/edit.ts';
import { FINDING_CODES } from '../../../shared-model/refusal.ts';
import { DAMAGED, type DamagedRailroad } from '../../support/damaged-railroads.ts';

const findingOf = ({ code, severity, document, checks, about }: DamagedRailroad) =>
  fullAudit(document, checks).find(
    (one) => one.code === code && one.severity === severity && about.every((id) => one.about.includes(id)),
  );

test('there is a damage for every code of the audit', () => {
  expect(DAMAGED.map(({ code }) => code)).toEqual(FINDING_CODES);
});

const railroadsOf = (damaged: readonly DamagedRailroad[]) =>
  damaged.map((damage) => [damage.code, damage] as const);

test.each(railroadsOf(DAMAGED))('%s is found, with a sentence and what to do', (_code, damage) => {
  const finding = findingOf(damage);
  expect(finding?.says).toMatch(/[.)]$/);
  expect(finding?.remedy).toMatch(/\.$/);
  expect(finding !== undefined && remedyFor(finding, damage.document) !== null).toBe(damage.mends);
});

test.each(railroadsOf(DAMAGED.filter(({ mends }) => mends)))(
  '%s is gone after its button, which makes no new error and can be taken back',
  (code, damage) => {
    const finding = findingOf(damage);
    const edit = finding === undefined ? null : remedyFor(finding, damage.document);
    if (edit === null) throw new Error(`no remedy for ${code}`);
    const mended = applyEdit(damage.document, edit);
    const left = fullAudit(mended, damage.checks);
    expect(left.filter((one) => one.code === code && one.says === finding?.says)).toEqual([]);
    const errors = (all: typeof left) => all.filter(({ severity }) => severity === 'error').length;
    expect(errors(left)).toBeLessThanOrEqual(errors(fullAudit(damage.document, damage.checks)));
    expect(applyEdit(mended, inverseOf(edit))).toEqual(damage.document);
  },
);
