/** `npm run build`: builds what is stale. With `--all`, everything. */
import { buildStale } from './build-stale.ts';

const built = await buildStale({ all: process.argv.includes('--all') });
console.log(built.length === 0 ? 'Everything is built already.' : `Built: ${built.join(', ')}.`);
