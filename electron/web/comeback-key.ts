/** The key by which open pages find back to a console that was started anew: kept beside the log, for its owner alone. */
import { randomBytes } from 'node:crypto';
import { readFileSync, rmSync, writeFileSync } from 'node:fs';
import { z } from '../../shared-model/zod.ts';

/** A key older than this is replaced at the next start; pages that are still open then need a fresh address. */
const OLDEST_MS = 7 * 86_400_000;

const keptKey = z.strictObject({ key: z.string().regex(/^[0-9a-f]{64}$/), made: z.number() });

const keyFile = (log: string) => `${log}-comeback`;

function readKey(file: string, now: number): string | null {
  try {
    const kept = keptKey.parse(JSON.parse(readFileSync(file, 'utf8')));
    return kept.made <= now && now - kept.made < OLDEST_MS ? kept.key : null;
  } catch {
    return null;
  }
}

/**
 * The key of a log's console; a fresh one where there is none or it is old.
 *
 * @param log path of the log
 * @param now wall clock, milliseconds
 * @returns 32 bytes in hexadecimal digits. Where it cannot be kept, pages need a fresh address after the next start.
 */
export function comebackKeyOf(log: string, now: number): string {
  const file = keyFile(log);
  const known = readKey(file, now);
  if (known !== null) return known;
  const key = randomBytes(32).toString('hex');
  try {
    // Made anew, so that the mode holds: only its owner may read it.
    rmSync(file, { force: true });
    writeFileSync(file, JSON.stringify({ key, made: now }), { mode: 0o600, flag: 'wx' });
  } catch {
    // A disk that is full, or for reading only.
  }
  return key;
}
