/**
 * Packs the console around a stand-in for Electron's program and looks at what came of it.
 *
 * It proves the packing: what is in, what is out, that the packed files need nothing beside them, and that the fuses are set. It cannot prove
 * that Electron runs the package, nor anything about installers, signatures, and other systems.
 */
import { spawnSync } from 'node:child_process';
import { chmodSync, mkdirSync, mkdtempSync, rmSync, statSync, writeFileSync } from 'node:fs';
import { tmpdir } from 'node:os';
import { join } from 'node:path';
import { extractAll, listPackage } from '@electron/asar';
import { FuseState, getCurrentFuseWire } from '@electron/fuses';
import { build, type Configuration, Platform } from 'electron-builder';
import { root } from './fit-node.js';
import { FUSES } from './fuses.ts';

/** What @electron/fuses looks for in a program: this, the version of the wire, its length, and the wire as Electron ships it. */
const FUSE_WIRE = Buffer.concat([
  Buffer.from('dL7pKGdnNz796PbbjQWNKmHXBZaB9tsX'),
  Buffer.from([1, 9]),
  Buffer.from('101100011'),
]);

/** More than this in the archive means that something got in that should not have. In bytes. */
const LARGEST_ARCHIVE = 8 * 1024 * 1024;

interface Finding {
  readonly what: string;
  readonly holds: boolean;
}

/** A folder with a stand-in for Electron's program. */
function standIn(folder: string): string {
  mkdirSync(folder);
  const program = join(folder, 'electron');
  writeFileSync(program, Buffer.concat([Buffer.from('#!/bin/sh\nexit 1\n'), FUSE_WIRE]));
  chmodSync(program, 0o755);
  return folder;
}

/** Whether the packed command line answers, from the archive's files alone. */
function answers(archive: string, folder: string): boolean {
  extractAll(archive, folder);
  const args = ['phase', '--volts-a', '18', '--volts-b', '18', '--volts-across', '0.4', '--json'];
  const { stdout } = spawnSync(process.execPath, [join(folder, 'dist/command-line/main.js'), ...args], {
    cwd: folder,
  });
  return String(stdout).includes('"verdict":"in-phase"');
}

/** Whether the packed command line can open a log: that loads the native package. */
function opensLog(folder: string): boolean {
  const log = join(folder, 'proof.cabward');
  const { status } = spawnSync(process.execPath, [
    join(folder, 'dist/command-line/main.js'),
    'demo',
    '--log',
    log,
  ]);
  return status === 0;
}

async function fusesAreSet(program: string): Promise<boolean> {
  const wire = (await getCurrentFuseWire(program)) as unknown as Readonly<Record<string, FuseState>>;
  return Object.entries(FUSES)
    .filter(([fuse]) => /^\d$/.test(fuse))
    .every(([fuse, on]) => wire[fuse] === (on ? FuseState.ENABLE : FuseState.DISABLE));
}

async function findings(packed: string, scratch: string): Promise<Finding[]> {
  const archive = join(packed, 'resources', 'app.asar');
  const inside = listPackage(archive, { isPack: false }).map((file) => file.replaceAll('\\', '/'));
  const natives = inside.filter((file) => file.endsWith('.node'));
  const packages = new Set(
    inside.flatMap((file) => /^\/node_modules\/((?:@[^/]+\/)?[^/]+)$/.exec(file)?.[1] ?? []),
  );
  const odd = inside.filter((file) => /\.(tsx?|map)$/.test(file));
  const extracted = join(scratch, 'extracted');
  return [
    {
      what: 'main, preload, page, command line and the workers are in',
      holds: [
        'desktop/main.js',
        'desktop/preload.cjs',
        'renderer/index.html',
        'command-line/main.js',
        'host/planner-worker.js',
        'host/log-worker.js',
      ].every((file) => inside.includes(`/dist/${file}`)),
    },
    {
      what: `of the packages only better-sqlite3 is in (${[...packages].join(', ')})`,
      holds: [...packages].join() === 'better-sqlite3',
    },
    {
      what: `of its prebuilds only this system’s is in (${natives.join(', ')})`,
      holds: natives.length === 1 && natives[0]?.includes(`linux-${process.arch}`) === true,
    },
    {
      what: `no TypeScript and no map is in (${odd.length}: ${odd.slice(0, 3).join(', ')})`,
      holds: odd.length === 0,
    },
    {
      what: `the archive is small (${statSync(archive).size} bytes)`,
      holds: statSync(archive).size < LARGEST_ARCHIVE,
    },
    { what: 'the packed command line answers with nothing beside it', holds: answers(archive, extracted) },
    { what: 'the packed native package opens a log', holds: opensLog(extracted) },
    {
      what: 'all nine fuses are set in the program as build/fuses.ts says',
      holds: await fusesAreSet(join(packed, 'cabward')),
    },
  ];
}

const NOT_PROVED =
  'Not proved: that Electron runs it, since the program in it is a stand-in; installers, signatures, other systems.';

/** Packs and looks. @returns whether all holds */
export async function provePackage(config: Configuration): Promise<boolean> {
  const scratch = mkdtempSync(join(tmpdir(), 'cabward-package-'));
  try {
    const output = join(scratch, 'out');
    await build({
      projectDir: root,
      targets: Platform.LINUX.createTarget('dir'),
      publish: 'never',
      config: {
        ...config,
        electronDist: standIn(join(scratch, 'electron')),
        directories: { ...config.directories, output },
      },
    });
    const found = await findings(join(output, 'linux-unpacked'), scratch);
    for (const { what, holds } of found) console.log(`${holds ? 'proved' : 'WRONG'}: ${what}`);
    console.log(NOT_PROVED);
    return found.every(({ holds }) => holds);
  } finally {
    rmSync(scratch, { recursive: true, force: true });
  }
}
