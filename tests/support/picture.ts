/**
 * Where a browser test puts a picture of a screen. The pictures of the README are in docs/pictures and are made there
 * only when asked for (`CABWARD_PICTURES=docs npm test`), so that passing the tests leaves a clone as it was.
 */
import { mkdirSync } from 'node:fs';

export function pictureFile(name: string): string {
  const folder = process.env.CABWARD_PICTURES === 'docs' ? 'docs/pictures' : '.cache/pictures';
  mkdirSync(folder, { recursive: true });
  return `${folder}/${name}.png`;
}
