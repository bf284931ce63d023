/** The calls about the log as a whole: verify, back up, list the backups, restore. */
import type { Answer, ReplyOf } from '../../shared-model/wire/contract.ts';
import { type Bad, bad, type Good, good } from './answers.ts';
import { type Clock, rfc3339 } from './clock.ts';
import { backUp } from './log/backup.ts';
import { backupCards, bringBack, openSoundBackup, replaceAtStart } from './log/backups.ts';
import { verifyLog } from './log/verify.ts';
import type { Storage } from './storage.ts';

/** What is kept beside the evenings and comes back with them. */
const KINDS = ['rehearsal', 'train-sheet'] as const;

const REPLACED =
  'The log is damaged, so the backup takes its place when the console is started again; the damaged log is kept beside it under another name. Close the console and start it.';

type Restored = ReplyOf<'log.restore'>;

export function backupCalls(storage: Storage, clock: Clock) {
  let backup: Promise<unknown> = Promise.resolve();
  const backUpNow = (): Promise<Answer<{ file: string }>> => {
    const made = backup.then(async (): Promise<Answer<{ file: string }>> => {
      const log = storage.forBackup();
      if (log === null) return bad('refused', storage.state().says ?? 'The log cannot be backed up now.');
      return good({ file: await backUp(log, rfc3339(clock)) });
    });
    const answered = made.catch((error: unknown) =>
      bad('fault', `No backup was made: ${error instanceof Error ? error.message : String(error)}`),
    );
    backup = answered;
    return answered;
  };

  const restore = (file: string): Good<Restored> | Bad => {
    const sound = openSoundBackup(storage.log.name, file);
    if (!sound.ok) return bad('refused', sound.says, '$.file');
    if (storage.forBackup() === null) {
      replaceAtStart(storage.log.name, sound);
      return good({ evenings: 0, railroads: 0, says: REPLACED });
    }
    try {
      const written = storage.write((log) => bringBack(sound.log, log, KINDS, rfc3339(clock)));
      if (!written.ok) return written;
      const { evenings, railroads } = written.value;
      const says =
        evenings + railroads === 0
          ? 'Everything in this backup is in the log already.'
          : `Brought back: ${evenings} evenings, ${railroads} railroads. Nothing that was in the log has changed.`;
      return good({ evenings, railroads, says });
    } finally {
      sound.close();
    }
  };

  return {
    /** Waits for a backup that is being made. */
    settled: () => backup,
    backUpNow,
    calls: {
      'log.verify': () => {
        const { good: isGood, says } = verifyLog(storage.log);
        return good({ good: isGood, says: [...says] });
      },
      'log.backup': backUpNow,
      'log.backups': () => good([...backupCards(storage.log.name)]),
      'log.restore': ({ file }: { file: string }) => restore(file),
    },
  };
}
