/** Builds the parts of Cabward whose sources changed since they were built last. */
import { existsSync, mkdirSync, readFileSync, renameSync, rmSync, writeFileSync } from 'node:fs';
import { build } from 'vite';
import { root } from './fit-node.js';
import { HOST_FOLDERS } from './host-entries.ts';
import { oneAtATime } from './one-at-a-time.ts';
import { hashOf } from './sources.ts';

interface Part {
  readonly name: string;
  /** Where it is made from, relative to the root. */
  readonly sources: readonly string[];
  /** What the built part is known by, below `dist/`. */
  readonly made: string;
  readonly configs: readonly string[];
  /** Folders below `dist/` to empty first. */
  readonly owns: readonly string[];
}

const COMMON = ['shared-model', 'package-lock.json', 'build/host-entries.ts', 'build/build-stale.ts'];

const PARTS: readonly Part[] = [
  {
    name: 'host',
    sources: [...COMMON, 'electron', 'build/vite.host.config.ts', 'build/vite.preload.config.ts'],
    made: 'command-line/main.js',
    configs: ['vite.host.config.ts', 'vite.preload.config.ts'],
    owns: HOST_FOLDERS,
  },
  {
    name: 'screens',
    sources: [...COMMON, 'renderer', 'docs/guide', 'build/vite.renderer.config.ts'],
    made: 'renderer/index.html',
    configs: ['vite.renderer.config.ts'],
    owns: ['renderer'],
  },
];

const stampOf = (part: Part): string => `${root}dist/${part.name}.built`;

function isStale(part: Part, hash: string): boolean {
  if (!existsSync(`${root}dist/${part.made}`) || !existsSync(stampOf(part))) return true;
  return readFileSync(stampOf(part), 'utf8') !== hash;
}

async function buildPart(part: Part, hash: string): Promise<void> {
  rmSync(stampOf(part), { force: true });
  for (const folder of part.owns) rmSync(`${root}dist/${folder}`, { recursive: true, force: true });
  for (const config of part.configs) await build({ configFile: `${root}build/${config}`, logLevel: 'warn' });
  // Written aside and renamed: a stamp is whole or not there.
  writeFileSync(`${stampOf(part)}.new`, hash);
  renameSync(`${stampOf(part)}.new`, stampOf(part));
}

/** Builds each part that is stale, or all. */
async function buildParts(all: boolean): Promise<string[]> {
  const built: string[] = [];
  for (const part of PARTS) {
    const hash = hashOf(part.sources);
    if (!(all || isStale(part, hash))) continue;
    await buildPart(part, hash);
    built.push(part.name);
  }
  return built;
}

/**
 * Builds every part that is stale, or all of them.
 * @returns the names of the parts that were built
 */
export async function buildStale({ all }: { readonly all: boolean }): Promise<string[]> {
  mkdirSync(`${root}dist`, { recursive: true });
  return await oneAtATime(`${root}dist/building`, () => buildParts(all));
}
