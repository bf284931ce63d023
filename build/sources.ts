/** What a build is made from, as one hash of contents: it does not matter when a file was written. */
import { createHash } from 'node:crypto';
import { existsSync, readdirSync, readFileSync, statSync } from 'node:fs';
import { root } from './fit-node.js';

/** Every file below a path (or the file itself), relative to the root, in order. */
export function filesBelow(path: string): string[] {
  if (!existsSync(root + path)) return [];
  if (statSync(root + path).isFile()) return [path];
  return readdirSync(root + path, { withFileTypes: true, recursive: true })
    .filter((entry) => entry.isFile())
    .map((entry) => `${entry.parentPath}/${entry.name}`.slice(root.length))
    .sort();
}

/** SHA-256 over names and contents of everything below the paths, in hexadecimal. */
export function hashOf(paths: readonly string[]): string {
  const hash = createHash('sha256');
  for (const file of paths.flatMap(filesBelow)) {
    hash.update(`${file}\0`);
    hash.update(readFileSync(root + file));
    hash.update('\0');
  }
  return hash.digest('hex');
}
