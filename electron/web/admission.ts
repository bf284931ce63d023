/** Who may come in: the right Host and Origin, and a cookie that was got for a token good for one use, or by a page that was in before. */
import { createHash, createHmac, randomBytes, timingSafeEqual } from 'node:crypto';
import type { IncomingHttpHeaders } from 'node:http';
import { comebackText } from '../../shared-model/wire/comeback.ts';

/** After so many wrong tokens or proofs in a minute, none is looked at for the rest of it. */
const MOST_FAILURES = 5;
const MINUTE = 60_000;
/** Challenges that wait for their answer at a time, and for how long. */
const MOST_CHALLENGES = 32;
const CHALLENGE_MS = 30_000;

export interface Admission {
  /** A fresh token; the one before it is no longer good. */
  issueToken(): string;
  /** Takes a token for a `Set-Cookie` header; null if it is not good (any more). */
  redeem(token: string): string | null;
  /** What pages that are let in come back with. */
  readonly comebackKey: string;
  /** What a page has to answer to come back; good for one answer, for half a minute. */
  challenge(): string;
  /** Takes the answer to a challenge for a `Set-Cookie` header; null if it is not good. */
  comeBack(challenge: string, proof: string): string | null;
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
  /** 32 bytes as hexadecimal digits: the same before and after a restart. */
  readonly comebackKey: string;
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
export function makeAdmission({ port, now, comebackKey, secret }: AdmissionOptions): Admission {
  const random = secret ?? (() => randomBytes(32).toString('hex'));
  const host = `127.0.0.1:${port}`;
  const origin = `http://${host}`;
  // Cookies do not tell ports apart, so two consoles on one machine need two names.
  const name = `cabward-${port}`;
  const pass = random();
  let token: string | null = null;
  /** When each was given, oldest first. */
  const challenges = new Map<string, number>();
  const cookie = `${name}=${pass}; Path=/; HttpOnly; SameSite=Strict`;

  /** Whether what was given is good; nothing is looked at after too many failures. */
  const bounded = () => {
    let failures: number[] = [];
    return (look: () => boolean): boolean => {
      failures = failures.filter((at) => now() - at < MINUTE);
      if (failures.length >= MOST_FAILURES) return false;
      const good = look();
      if (!good) failures.push(now());
      return good;
    };
  };
  // Apart from each other: a page with an old key does not bar the address that was just printed.
  const isToken = bounded();
  const isProof = bounded();

  return {
    origin,
    comebackKey,
    challenge: () => {
      const fresh = random();
      challenges.set(fresh, now());
      if (challenges.size > MOST_CHALLENGES) challenges.delete([...challenges.keys()][0] ?? '');
      return fresh;
    },
    comeBack: (challenge, proof) => {
      const given = challenges.get(challenge);
      challenges.delete(challenge);
      // One that was never given, or long ago, tells nothing of the key.
      if (given === undefined || now() - given > CHALLENGE_MS) return null;
      const expected = createHmac('sha256', Buffer.from(comebackKey, 'hex'))
        .update(comebackText(origin, challenge), 'utf8')
        .digest('hex');
      return isProof(() => same(proof, expected)) ? cookie : null;
    },
    issueToken: () => {
      token = random();
      return token;
    },
    redeem: (given) => {
      const known = token;
      if (!isToken(() => known !== null && same(given, known))) return null;
      token = null;
      return cookie;
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
