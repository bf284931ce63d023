/** Who may come in: the right Host and Origin, and a cookie that was got for a token good for one use. */
import { createHash, randomBytes, timingSafeEqual } from 'node:crypto';
import type { IncomingHttpHeaders } from 'node:http';

/** After so many wrong tokens in a minute, none is looked at for the rest of it. */
const MOST_FAILURES = 5;
const MINUTE = 60_000;

export interface Admission {
  /** A fresh token; the one before it is no longer good. */
  issueToken(): string;
  /** Takes a token for a `Set-Cookie` header; null if it is not good (any more). */
  redeem(token: string): string | null;
  /** Why a request is turned away before anything is looked at; null if it is not. */
  headersProblem(headers: IncomingHttpHeaders): string | null;
  hasCookie(headers: IncomingHttpHeaders): boolean;
  /** The Origin that a WebSocket has to come from. */
  readonly origin: string;
}

export interface AdmissionOptions {
  readonly port: number;
  /** Milliseconds, monotonic. */
  readonly now: () => number;
  /** 32 random bytes as hexadecimal digits. */
  readonly secret?: (() => string) | undefined;
}

/** Compares in a time that tells nothing of where two texts differ. */
function same(one: string, other: string): boolean {
  const digest = (text: string) => createHash('sha256').update(text).digest();
  return timingSafeEqual(digest(one), digest(other));
}

function cookieOf(headers: IncomingHttpHeaders, name: string): string | null {
  for (const part of (headers.cookie ?? '').split(';')) {
    const [key, value] = part.trim().split('=', 2);
    if (key === name && value !== undefined) return value;
  }
  return null;
}

/** Admission to a server on 127.0.0.1. */
export function makeAdmission({ port, now, secret }: AdmissionOptions): Admission {
  const random = secret ?? (() => randomBytes(32).toString('hex'));
  const host = `127.0.0.1:${port}`;
  const origin = `http://${host}`;
  // Cookies do not tell ports apart, so two consoles on one machine need two names.
  const name = `cabward-${port}`;
  const pass = random();
  let token: string | null = null;
  let failures: number[] = [];

  return {
    origin,
    issueToken: () => {
      token = random();
      return token;
    },
    redeem: (given) => {
      failures = failures.filter((at) => now() - at < MINUTE);
      if (failures.length >= MOST_FAILURES) return null;
      if (token === null || !same(given, token)) {
        failures.push(now());
        return null;
      }
      token = null;
      return `${name}=${pass}; Path=/; HttpOnly; SameSite=Strict`;
    },
    headersProblem: (headers) => {
      if (headers.host !== host) return `expected the address ${origin}/`;
      if (headers.origin !== undefined && headers.origin !== origin)
        return 'expected a request from this page';
      const site = headers['sec-fetch-site'];
      if (site !== undefined && site !== 'same-origin' && site !== 'none')
        return 'expected a request from this page';
      return null;
    },
    hasCookie: (headers) => same(cookieOf(headers, name) ?? '', pass),
  };
}
