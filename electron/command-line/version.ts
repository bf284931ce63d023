/** The version of the program. */
import { readFileSync } from 'node:fs';

/** Read from the package, two folders up: it lies there for the source and for the bundle. */
export function programVersion(): string {
  const file = new URL('../../package.json', import.meta.url);
  const { version } = JSON.parse(readFileSync(file, 'utf8')) as { version: string };
  return version;
}
