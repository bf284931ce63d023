/** The files of the page: a fixed map made once at the start, so that no path in a request is ever looked up on the disk. */
import { existsSync, readdirSync, readFileSync } from 'node:fs';
import { extname, join, relative, sep } from 'node:path';

export interface PageFile {
  readonly type: string;
  readonly body: Uint8Array;
}
/** By path in the address: "/", "/assets/index-1a2b.js". */
export type PageFiles = ReadonlyMap<string, PageFile>;

const TYPES: Readonly<Record<string, string>> = {
  '.html': 'text/html; charset=utf-8',
  '.js': 'text/javascript; charset=utf-8',
  '.css': 'text/css; charset=utf-8',
  '.json': 'application/json; charset=utf-8',
  '.svg': 'image/svg+xml',
  '.png': 'image/png',
  '.ico': 'image/x-icon',
  '.woff2': 'font/woff2',
  '.woff': 'font/woff',
  '.txt': 'text/plain; charset=utf-8',
  '.webmanifest': 'application/manifest+json',
};

/**
 * Reads all files of a folder whose kind is known.
 *
 * @param folder what the build of the screens made
 * @returns the files, "/" being index.html; null where the folder has no page
 */
export function readPageFiles(folder: string): PageFiles | null {
  if (!existsSync(join(folder, 'index.html'))) return null;
  const files = new Map<string, PageFile>();
  for (const entry of readdirSync(folder, { recursive: true, withFileTypes: true })) {
    const type = TYPES[extname(entry.name)];
    if (!entry.isFile() || type === undefined) continue;
    const path = join(entry.parentPath, entry.name);
    const address = `/${relative(folder, path).split(sep).join('/')}`;
    const file = { type, body: readFileSync(path) };
    files.set(address, file);
    if (address === '/index.html') files.set('/', file);
  }
  return files;
}
