/** `npm run typecheck`: each room against its own tsconfig, so that shared-model sees no DOM and no Node. */
import { spawnSync } from 'node:child_process';
import { root } from './fit-node.js';

const ROOMS = ['shared-model', 'electron', 'renderer', 'tests', 'build'];

const wrong = ROOMS.filter((room) => {
  const compiler = [`${root}node_modules/typescript/bin/tsc`, '-p', root + room];
  return spawnSync(process.execPath, compiler, { cwd: root, stdio: 'inherit' }).status !== 0;
});
console.log(wrong.length === 0 ? 'Types: every room is right.' : `Types: wrong in ${wrong.join(', ')}.`);
process.exitCode = wrong.length === 0 ? 0 : 1;
