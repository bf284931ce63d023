/** What `npm test` says in its last line, and when it fails. */
import { describe, expect, test } from 'vitest';
import { countRun, isGood, summaryOf, sumRuns } from '../../build/test-runs.ts';

const report = (changes: object) =>
  JSON.stringify({
    success: true,
    numPassedTests: 3,
    numFailedTests: 0,
    numPendingTests: 0,
    numTodoTests: 0,
    testResults: [{ status: 'passed', assertionResults: [{}, {}, {}] }],
    ...changes,
  });

describe('a run of tests', () => {
  test('is good when every test passed', () => {
    const run = countRun(report({}));
    expect(isGood(run)).toBe(true);
    expect(summaryOf(run)).toBe('3 passed, 0 failed');
  });

  test('is bad when one failed', () => {
    const run = countRun(report({ success: false, numFailedTests: 1 }));
    expect(isGood(run)).toBe(false);
    expect(summaryOf(run)).toBe('3 passed, 1 failed');
  });

  test('is bad when one was skipped, though Vitest calls that a success', () => {
    const run = countRun(report({ numPendingTests: 1 }));
    expect(isGood(run)).toBe(false);
    expect(summaryOf(run)).toBe('3 passed, 1 failed, 1 of them skipped');
  });

  test('is bad when a file could not be loaded, so that none of its tests ran', () => {
    const run = countRun(
      report({ success: false, testResults: [{ status: 'failed', assertionResults: [] }] }),
    );
    expect(isGood(run)).toBe(false);
    expect(summaryOf(run)).toBe('3 passed, 1 failed, 1 of them files that did not run to their end');
  });

  test('is bad when it failed for a reason that it does not tell', () => {
    expect(isGood(countRun(report({ success: false })))).toBe(false);
  });

  test('is bad when it ran nothing at all', () => {
    expect(isGood(countRun(report({ numPassedTests: 0 })))).toBe(false);
  });

  test('is bad when its report is not one', () => {
    expect(isGood(countRun('{}'))).toBe(false);
  });
});

test('several runs are summed', () => {
  const one = countRun(report({}));
  expect(sumRuns([one, { passed: 4, failed: 2, skipped: 1, broken: 0 }])).toEqual({
    passed: 7,
    failed: 2,
    skipped: 1,
    broken: 0,
  });
});
