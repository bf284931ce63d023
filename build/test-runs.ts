/** Runs of Vitest, and what came of them in numbers. */
import { spawnSync } from 'node:child_process';
import { readFileSync, rmSync } from 'node:fs';
import { z } from '../shared-model/zod.ts';
import { root } from './fit-node.js';

/** What we need of Vitest's JSON report. */
const report = z.object({
  success: z.boolean(),
  numPassedTests: z.number(),
  numFailedTests: z.number(),
  numPendingTests: z.number(),
  numTodoTests: z.number(),
  testResults: z.array(z.object({ status: z.string(), assertionResults: z.array(z.unknown()) })),
});

export interface TestRun {
  readonly passed: number;
  readonly failed: number;
  /** Tests that were not run though they were there; that is a failure, too. */
  readonly skipped: number;
  /** Files that could not be run at all, or a run that left no report. */
  readonly broken: number;
}

const NOTHING_TOLD: TestRun = { passed: 0, failed: 0, skipped: 0, broken: 1 };

/** The numbers in the text of a report; one that cannot be read counts as broken. */
export function countRun(text: string): TestRun {
  const parsed = report.safeParse(JSON.parse(text));
  if (!parsed.success) return NOTHING_TOLD;
  const { numPassedTests, numFailedTests, numPendingTests, numTodoTests, testResults, success } = parsed.data;
  const emptyFailures = testResults.filter(
    ({ status, assertionResults }) => status === 'failed' && assertionResults.length === 0,
  ).length;
  const unexplained = !success && numFailedTests + emptyFailures === 0 ? 1 : 0;
  return {
    passed: numPassedTests,
    failed: numFailedTests,
    skipped: numPendingTests + numTodoTests,
    broken: emptyFailures + unexplained,
  };
}

/** Runs the tests of one configuration in build/, printing as they go. */
export function runTests(config: string, environment: Readonly<Record<string, string>>): TestRun {
  const file = `${root}.cache/${config}.json`;
  rmSync(file, { force: true });
  const reporters = ['--reporter=default', '--reporter=json', `--outputFile.json=${file}`];
  const args = [
    `${root}node_modules/vitest/vitest.mjs`,
    'run',
    '--config',
    `${root}build/${config}.ts`,
    ...reporters,
  ];
  const { status } = spawnSync(process.execPath, args, {
    cwd: root,
    stdio: 'inherit',
    env: { ...process.env, ...environment },
  });
  try {
    const run = countRun(readFileSync(file, 'utf8'));
    const isBad = run.failed + run.skipped + run.broken > 0;
    // A run may end badly after its last test, by an error that nobody caught.
    return status === 0 || isBad ? run : { ...run, broken: 1 };
  } catch {
    return NOTHING_TOLD;
  }
}

/** Several runs as one. */
export function sumRuns(runs: readonly TestRun[]): TestRun {
  const sum = (key: keyof TestRun): number => runs.reduce((total, run) => total + run[key], 0);
  return { passed: sum('passed'), failed: sum('failed'), skipped: sum('skipped'), broken: sum('broken') };
}

/** The last line of `npm test`; a skipped test and a broken file are failures. */
export function summaryOf({ passed, failed, skipped, broken }: TestRun): string {
  const words = [`${passed} passed`, `${failed + broken + skipped} failed`];
  if (skipped > 0) words.push(`${skipped} of them skipped`);
  if (broken > 0) words.push(`${broken} of them files that did not run to their end`);
  return words.join(', ');
}

export const isGood = ({ passed, failed, skipped, broken }: TestRun): boolean =>
  passed > 0 && failed + skipped + broken === 0;
