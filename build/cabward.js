#!/usr/bin/env node
/** The `cabward` program: finds a Node that is new enough, builds if nothing was built yet, and runs the command line. */
import { spawnSync } from 'node:child_process';
import { existsSync } from 'node:fs';
import { fileURLToPath } from 'node:url';
import { fitNode, root, runThrough, TOO_OLD } from './fit-node.js';

const main = `${root}dist/command-line/main.js`;
const node = fitNode();

/** Exit status 2: the call is wrong, one line on standard error. */
const giveUp = (/** @type {string} */ line) => {
  console.error(line);
  process.exitCode = 2;
};

/** Builds the command line with everything that the build says on standard error; standard output is for the answer. */
function build(/** @type {string} */ program) {
  console.error('Cabward is not built yet; building it once …');
  return spawnSync(program, [`${root}build/build.ts`], { stdio: ['ignore', 2, 2] }).status === 0;
}

if (node === null) giveUp(TOO_OLD);
else if (!existsSync(main) && !build(node)) giveUp('The build failed: run `npm ci`, then `npm run build`.');
else if (node !== process.execPath)
  process.exitCode = await runThrough(node, [fileURLToPath(import.meta.url), ...process.argv.slice(2)]);
else await import(main);
