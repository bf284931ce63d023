/** Room set aside on the disk: when the disk is full it is given up, so that the evening can be ended and saved. */
import { randomBytes } from 'node:crypto';
import { closeSync, existsSync, fsyncSync, openSync, rmSync, statfsSync, statSync, writeSync } from 'node:fs';
import { dirname } from 'node:path';

const RESERVE_BYTES = 8 * 1024 * 1024;

export interface Reserve {
  /** Sets the room aside, if there is enough; true when it is there. */
  hold(): boolean;
  /** Gives the room up; true when there was any. */
  giveUp(): boolean;
}

/** Room that is left where a file is or would be; none where the system does not say. */
function freeBytes(file: string): number {
  try {
    const { bavail, bsize } = statfsSync(dirname(file));
    return bavail * bsize;
  } catch {
    return 0;
  }
}

/** The reserve of a log, a file beside it. */
export function reserveBeside(log: string, bytes: number = RESERVE_BYTES): Reserve {
  const file = `${log}-reserve`;
  return {
    hold: () => {
      if (existsSync(file) && statSync(file).size === bytes) return true;
      if (freeBytes(file) < 4 * bytes) return false;
      const handle = openSync(file, 'w', 0o600);
      try {
        // Random, since a disk that compresses would keep no room for zeros.
        writeSync(handle, randomBytes(bytes));
        fsyncSync(handle);
        return true;
      } catch {
        rmSync(file, { force: true });
        return false;
      } finally {
        closeSync(handle);
      }
    },
    giveUp: () => {
      const held = existsSync(file);
      rmSync(file, { force: true });
      return held;
    },
  };
}
