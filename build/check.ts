/** `npm run check`: the one gate. With `--fast` everything but the tests. */
import { spawnSync } from 'node:child_process';
import { runAllTests } from './all-tests.ts';
import { root } from './fit-node.js';

const BIN = `${root}node_modules/.bin/`;
const BIOME = ['--config-path', 'build/biome.project.json', '--diagnostic-level=error'];

interface Step {
  readonly name: string;
  readonly program: string;
  readonly args: readonly string[];
}

const own = (name: string, script: string, ...args: string[]): Step => ({
  name,
  program: process.execPath,
  args: [`${root}build/${script}.ts`, ...args],
});

const STEPS: readonly Step[] = [
  { name: 'format', program: `${BIN}biome`, args: ['check', '--linter-enabled=false', ...BIOME, '.'] },
  { name: 'lint', program: `${BIN}biome`, args: ['lint', ...BIOME, '.'] },
  own('types', 'typecheck'),
  own('layers', 'layers'),
  { name: 'knip', program: `${BIN}knip`, args: ['--config', 'build/knip.json', '--no-progress'] },
  own('generated files', 'diagram', '--check'),
];

/** The proof runs what it has packed, which is for Linux. */
const PACKAGE_PROOF = own('package', 'package', '--proof');
const isLinux = process.platform === 'linux';
if (!isLinux) console.log('The proof of the package is made on Linux alone; it is left out here.');

const wrong: string[] = [];
for (const { name, program, args } of isLinux ? [...STEPS, PACKAGE_PROOF] : STEPS) {
  console.log(`── ${name}`);
  if (spawnSync(program, args, { cwd: root, stdio: 'inherit' }).status !== 0) wrong.push(name);
}
if (!process.argv.includes('--fast')) {
  console.log('── tests');
  if (!(await runAllTests())) wrong.push('tests');
}
console.log(wrong.length === 0 ? 'Check: all is right.' : `Check: wrong in ${wrong.join(', ')}.`);
process.exitCode = wrong.length === 0 ? 0 : 1;
