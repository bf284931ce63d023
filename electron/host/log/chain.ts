/** The hash chain of an evening: each link is SHA-256 over the link before it and the canonical JSON (RFC 8785) of what is added. */
import { createHash } from 'node:crypto';
import canonicalize from 'canonicalize';

/** A SHA-256 as 64 lower-case hexadecimal digits. */
export type Hash = string;

/** What comes before the first link: 32 zero bytes. */
export const NO_LINK: Hash = '0'.repeat(64);

/** SHA-256 (FIPS 180-4) of bytes, or of a text in UTF-8. */
export function sha256(data: string | Uint8Array): Hash {
  return createHash('sha256').update(data).digest('hex');
}

/** A JSON value as RFC 8785 writes it. Throws on what is no JSON value: undefined, NaN, a lone surrogate. */
export function canonicalJson(value: unknown): string {
  const text: unknown = canonicalize(value);
  if (typeof text !== 'string') throw new TypeError('not a JSON value');
  return text;
}

/** Hash of a JSON value, however its keys were ordered when it was read. */
export function contentHash(value: unknown): Hash {
  return sha256(canonicalJson(value));
}

/**
 * The link that follows another.
 *
 * @param previous the link before, or `NO_LINK`
 * @param canonical canonical JSON of what is added
 * @returns SHA-256(32 bytes of `previous` ‖ UTF-8 of `canonical`)
 */
export function nextLink(previous: Hash, canonical: string): Hash {
  return createHash('sha256').update(Buffer.from(previous, 'hex')).update(canonical, 'utf8').digest('hex');
}

/** What an evening's chain starts from: the evening's own header is its first link, so that it cannot be changed either. */
export interface EveningHeader {
  readonly uid: string;
  readonly railroadHash: Hash;
  /** RFC 3339. */
  readonly openedAt: string;
  /** The state before the first event. */
  readonly initial: unknown;
}

/** The first link of an evening's chain. */
export function headerLink(header: EveningHeader): Hash {
  return nextLink(NO_LINK, canonicalJson({ format: 'cabward-evening/1', ...header }));
}
