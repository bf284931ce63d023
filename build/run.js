/** Runs `build/NAME.ts` (the first argument) with a Node that is new enough, whatever Node npm was started with. */
import { fitNode, root, runThrough, TOO_OLD } from './fit-node.js';

const [name, ...args] = process.argv.slice(2);
const node = fitNode();
const underNpm = process.env.npm_lifecycle_event !== undefined;
if (node === null) {
  console.error(TOO_OLD);
  process.exitCode = 1;
} else {
  process.exitCode = await runThrough(node, [`${root}build/${name}.ts`, ...args], underNpm);
}
