/** The page over HTTP: GET alone, from a fixed map, to whom has the cookie. A request never changes anything but for the token or the proof it brings. */
import type { IncomingMessage, ServerResponse } from 'node:http';
import { COMEBACK_KEY_PATH, COMEBACK_PATH } from '../../shared-model/wire/comeback.ts';
import type { Admission } from './admission.ts';
import { SECURITY_HEADERS } from './content-security.ts';
import type { PageFiles } from './page-files.ts';

interface Reply {
  readonly status: number;
  readonly body: string | Uint8Array;
  readonly headers?: Readonly<Record<string, string>>;
}

interface Parts {
  readonly path: string;
  readonly token: string | null;
  readonly challenge: string | null;
  readonly proof: string | null;
}

/** What is looked at of an address; null where it is no address. Whatever else is in it does not matter. */
function partsOf(url: string | undefined): Parts | null {
  try {
    const { pathname, searchParams } = new URL(url ?? '', 'http://127.0.0.1');
    return {
      path: pathname,
      token: searchParams.get('token'),
      challenge: searchParams.get('challenge'),
      proof: searchParams.get('proof'),
    };
  } catch {
    return null;
  }
}

const NOT_ADMITTED = `Open the address that Cabward printed when it started; it is good for one use.
For a fresh one, start it once more: it finds the one that is running and prints its address.
`;

const json = (value: object, headers: Reply['headers'] = {}): Reply => ({
  status: 200,
  body: JSON.stringify(value),
  headers: { 'Content-Type': 'application/json; charset=utf-8', ...headers },
});

/** A page that was in before: a challenge, or for the answer to one a fresh cookie. */
function comeback(admission: Admission, { challenge, proof }: Parts): Reply {
  if (challenge === null || proof === null) return json({ challenge: admission.challenge() });
  const cookie = admission.comeBack(challenge, proof);
  return cookie === null ? { status: 401, body: NOT_ADMITTED } : json({}, { 'Set-Cookie': cookie });
}

/** What a request gets. `redeemed` is called when it brought a good token. */
function replyTo(
  { method, headers, url }: IncomingMessage,
  admission: Admission,
  files: PageFiles,
  redeemed: () => void,
): Reply {
  if (method !== 'GET' && method !== 'HEAD')
    return { status: 405, body: 'expected GET\n', headers: { Allow: 'GET, HEAD' } };
  const problem = admission.headersProblem(headers);
  if (problem !== null) return { status: 421, body: `${problem}\n` };
  const parts = partsOf(url);
  if (parts === null) return { status: 400, body: 'expected an address of this page\n' };
  if (parts.token !== null && parts.path === '/') {
    const cookie = admission.redeem(parts.token);
    if (cookie !== null) {
      redeemed();
      return { status: 303, body: '', headers: { 'Set-Cookie': cookie, Location: '/' } };
    }
    // An address opened twice in a browser that was let in already is no failure.
    if (admission.hasCookie(headers)) return { status: 303, body: '', headers: { Location: '/' } };
  }
  if (parts.path === COMEBACK_PATH) return comeback(admission, parts);
  if (!admission.hasCookie(headers)) return { status: 401, body: NOT_ADMITTED };
  if (parts.path === COMEBACK_KEY_PATH) return json({ key: admission.comebackKey });
  const file = files.get(parts.path);
  if (file === undefined) return { status: 404, body: 'There is no such file.\n' };
  return { status: 200, body: file.body, headers: { 'Content-Type': file.type } };
}

/** Answers requests for the page. */
export function serveRequests(admission: Admission, files: PageFiles, redeemed: () => void) {
  return (request: IncomingMessage, response: ServerResponse): void => {
    // Nothing that is asked for here has a body.
    request.resume();
    const { status, body, headers } = replyTo(request, admission, files, redeemed);
    response.writeHead(status, {
      ...SECURITY_HEADERS,
      'Content-Type': 'text/plain; charset=utf-8',
      ...headers,
    });
    response.end(request.method === 'HEAD' ? '' : body);
  };
}
