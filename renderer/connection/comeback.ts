/** Finds back to a console that was started anew at the page's own address, with a key that the page holds in its memory alone. */
import {
  COMEBACK_KEY_PATH,
  COMEBACK_PATH,
  comebackChallenge,
  comebackKey,
  comebackText,
} from '../../shared-model/wire/comeback.ts';

const ENCODER = new TextEncoder();

const bytesOf = (hex: string): Uint8Array<ArrayBuffer> =>
  Uint8Array.from(hex.match(/../g) ?? [], (pair) => Number.parseInt(pair, 16));
const hexOf = (bytes: ArrayBuffer): string =>
  [...new Uint8Array(bytes)].map((byte) => byte.toString(16).padStart(2, '0')).join('');

async function proofOf(key: string, origin: string, challenge: string): Promise<string> {
  const hmac = { name: 'HMAC', hash: 'SHA-256' };
  const imported = await crypto.subtle.importKey('raw', bytesOf(key), hmac, false, ['sign']);
  return hexOf(await crypto.subtle.sign('HMAC', imported, ENCODER.encode(comebackText(origin, challenge))));
}

export interface Comeback {
  /** Takes the key, while the page is let in. */
  learn(): Promise<void>;
  /** Gets a fresh cookie with it; does nothing where it has none, or nobody answers. Never rejects. */
  comeBack(): Promise<void>;
}

/**
 * @param origin of the page
 * @param ask what the console answers to an address of its own, as JSON; null where it turns the page away, rejects where nobody answers
 */
export function makeComeback(origin: string, ask: (address: string) => Promise<unknown>): Comeback {
  let key: string | null = null;
  return {
    learn: async () => {
      const answer = comebackKey.safeParse(await ask(COMEBACK_KEY_PATH).catch(() => null));
      if (answer.success) key = answer.data.key;
    },
    comeBack: async () => {
      if (key === null) return;
      const asked = comebackChallenge.safeParse(await ask(COMEBACK_PATH).catch(() => null));
      if (!asked.success) return;
      const { challenge } = asked.data;
      const proof = await proofOf(key, origin, challenge);
      const given = ask(`${COMEBACK_PATH}?challenge=${challenge}&proof=${proof}`);
      // An old key is not tried again and again.
      if ((await given.catch(() => 'nobody')) === null) key = null;
    },
  };
}
