/**
 * `npm run bench`: runs every `tests/bench/NAME.bench.ts`, or those named (`npm run bench -- route plan`). Speed is measured here and
 * nowhere else, as ratios to a baseline of the same run, since machines differ.
 */
import { readdirSync } from 'node:fs';
import { pathToFileURL } from 'node:url';
import { type Bench, benchReport } from './bench-report.ts';
import { root } from './fit-node.js';

const FOLDER = `${root}tests/bench/`;
const ENDING = '.bench.ts';

const names = readdirSync(FOLDER)
  .filter((file) => file.endsWith(ENDING))
  .map((file) => file.slice(0, -ENDING.length));
const wished = process.argv.slice(2);
const unknown = wished.filter((name) => !names.includes(name));
const missed: string[] = [];

if (unknown.length > 0) {
  console.error(`No bench is called ${unknown.join(', ')}; expected some of ${names.join(', ')}.`);
  process.exitCode = 2;
} else {
  for (const name of wished.length > 0 ? wished : names) {
    const { run } = (await import(pathToFileURL(`${FOLDER}${name}${ENDING}`).href)) as { run: Bench };
    await run(
      benchReport(
        (line) => console.log(line),
        (what) => missed.push(`${name}: ${what}`),
      ),
    );
  }
  console.log(
    missed.length === 0 ? '\nAll that must be reached is reached.' : `\nMissed: ${missed.join('; ')}`,
  );
  process.exitCode = missed.length === 0 ? 0 : 1;
}
