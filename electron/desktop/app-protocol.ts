/** Answers the page's requests for its own files, from a map that was made at the start: no path in a request is looked up on the disk. */
import { SECURITY_HEADERS } from '../web/content-security.ts';
import type { PageFiles } from '../web/page-files.ts';
import { isConsoleAddress } from './console-address.ts';

const TEXT = { 'Content-Type': 'text/plain; charset=utf-8' };

const reply = (
  status: number,
  body: string | Uint8Array<ArrayBuffer>,
  headers: Readonly<Record<string, string>> = TEXT,
): Response => new Response(body, { status, headers: { ...SECURITY_HEADERS, ...headers } });

/**
 * The handler of the scheme.
 *
 * @param files "/" is the page itself
 */
export function consoleProtocol(files: PageFiles): (request: Request) => Response {
  return ({ method, url }) => {
    if (method !== 'GET') return reply(405, 'expected GET');
    if (!isConsoleAddress(url)) return reply(404, 'expected an address of the console');
    const file = files.get(new URL(url).pathname);
    if (file === undefined) return reply(404, 'There is no such file.');
    return reply(200, new Uint8Array(file.body), { 'Content-Type': file.type });
  };
}
