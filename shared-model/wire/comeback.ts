/**
 * How an open page finds back to a console that was started anew at the same address. While it is let in, the page holds a key in its
 * memory alone; later it answers a challenge with it. The key itself never goes to whoever may listen at that address meanwhile, and an
 * answer is good for one challenge and one address.
 */
import { z } from '../zod.ts';

/** Gives the key to a page that is let in. */
export const COMEBACK_KEY_PATH = '/comeback/key';
/** Gives a challenge; with `challenge` and `proof` a fresh cookie. */
export const COMEBACK_PATH = '/comeback';

/** 256 bits, in hexadecimal digits. */
const bits = z.string().regex(/^[0-9a-f]{64}$/);
export const comebackKey = z.strictObject({ key: bits });
export const comebackChallenge = z.strictObject({ challenge: bits });

/**
 * What is signed with the key: HMAC-SHA-256 (RFC 2104, FIPS 180-4) over its UTF-8, the key being its 32 bytes.
 *
 * @param origin of the page as its browser has it: "http://127.0.0.1:4127"
 */
export const comebackText = (origin: string, challenge: string): string =>
  `cabward-comeback ${origin} ${challenge}`;
