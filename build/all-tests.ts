/** All tests: first those without a browser, then those in one, on the console as it is built now. */
import { buildStale } from './build-stale.ts';
import { provideBrowser } from './provide-browser.ts';
import { isGood, runTests, summaryOf, sumRuns } from './test-runs.ts';

/** Runs every test and prints the sum on a line of its own. @returns whether all passed */
export async function runAllTests(): Promise<boolean> {
  const provided = provideBrowser();
  if (provided.browser === null) {
    console.error(provided.says);
    return false;
  }
  await buildStale({ all: false });
  const environment = { CABWARD_BROWSER: provided.browser };
  const run = sumRuns(
    ['vitest.config', 'vitest.screens.config'].map((config) => runTests(config, environment)),
  );
  console.log(`\n${summaryOf(run)}`);
  return isGood(run);
}
