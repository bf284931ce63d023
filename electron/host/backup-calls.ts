/** The calls about the log as a whole: verify, back up, list the backups, restore. */
import type { Answer, ReplyOf } from '../../shared-model/wire/contract.ts';
import { type Bad, bad, type Good, good } from './answers.ts';
import { bringInWhole } from './arrivals.ts';
import { GIVEN_UP } from './by-turns.ts';
import { type Clock, rfc3339 } from './clock.ts';
import { backUp } from './log/backup.ts';
import {
  backupCards,
  bringBackBeside,
  missingEvenings,
  openSoundBackup,
  replaceAtStart,
} from './log/backups.ts';
import { isUnderWay } from './log/partial.ts';
import { sessionRows } from './log/sessions.ts';
import type { Verdict } from './log/verify.ts';
import type { LogWork, StartLogWork } from './log-thread.ts';
import type { Pushes } from './pushes.ts';
import type { Storage } from './storage.ts';

/** So many entries written are worth telling. */
const TOLD_EVERY = 1000;

const UNDER_WAY = bad(
  'refused',
  'An evening of this backup is just being deleted or brought in. Restore when that is done.',
);

/** What is kept beside the evenings and comes back with them. */
const KINDS = ['rehearsal', 'train-sheet'] as const;

const REPLACED =
  'The log is damaged, so the backup takes its place when the console is started again; the damaged log is kept beside it under another name. Close the console and start it.';

type Restored = ReplyOf<'log.restore'>;

interface Deps {
  readonly storage: Storage;
  readonly clock: Clock;
  readonly pushes: Pushes;
  readonly startLogWork: StartLogWork;
}

export function backupCalls({ storage, clock, pushes, startLogWork }: Deps) {
  let backup: Promise<unknown> = Promise.resolve();
  let isRestoring = false;
  /** What was found sound in a backup is still to be brought back. */
  let wantsRestored = true;
  /** What goes through the log, or a backup, because somebody asked: it can be given up. */
  const asked = new Set<LogWork>();

  /** Null where it was given up. */
  const goThrough = async (file: string): Promise<Verdict | null> => {
    const work = startLogWork({ task: 'verify', file }, (progress) => pushes.tell('log.progress', progress));
    asked.add(work);
    try {
      const verdict = await work.verdict;
      return verdict === GIVEN_UP ? null : verdict;
    } finally {
      asked.delete(work);
    }
  };
  const finish = async (file: string): Promise<Verdict> => {
    const verdict = await startLogWork({ task: 'finish', file }, () => undefined).verdict;
    return verdict === GIVEN_UP ? { good: false, says: ['given up'] } : verdict;
  };
  const backUpNow = (): Promise<Answer<{ file: string }>> => {
    const made = backup.then(async (): Promise<Answer<{ file: string }>> => {
      const log = storage.forBackup();
      if (log === null) return bad('refused', storage.state().says ?? 'The log cannot be backed up now.');
      return good({ file: await backUp(log, rfc3339(clock), finish) });
    });
    const answered = made.catch((error: unknown) =>
      bad('fault', `No backup was made: ${error instanceof Error ? error.message : String(error)}`),
    );
    backup = answered;
    return answered;
  };

  const restoreFrom = async (file: string): Promise<Good<Restored> | Bad> => {
    const sound = await openSoundBackup(storage.log.name, file, goThrough);
    if (!sound.ok) return bad('refused', sound.says, '$.file');
    if (storage.forBackup() === null) {
      replaceAtStart(storage.log.name, sound);
      return good({ evenings: 0, railroads: 0, says: REPLACED });
    }
    try {
      if (sessionRows(sound.log).some(({ uid }) => isUnderWay(storage.log, uid))) return UNDER_WAY;
      const at = rfc3339(clock);
      const missing = missingEvenings(sound.log, storage.log, at);
      const of = missing.reduce((sum, { count }) => sum + count, 0);
      wantsRestored = true;
      let told = 0;
      const brought = await bringInWhole(storage, missing, {
        at,
        wanted: (entries) => {
          // Evenings end at any number of entries, so that the whole thousands may never be met.
          if (entries - told >= TOLD_EVERY) {
            told = entries;
            pushes.tell('log.progress', { entries, of, written: true });
          }
          return wantsRestored;
        },
        also: (log) => good(bringBackBeside(sound.log, log, KINDS, at)),
      });
      if (brought === GIVEN_UP) return bad('refused', 'It was given up. Nothing was restored.');
      if (!brought.ok) return brought;
      const [evenings, railroads] = [missing.length, brought.value];
      if (evenings > 0) pushes.tell('evenings.changed', {});
      if (railroads > 0) pushes.tell('railroads.changed', {});
      const says =
        evenings + railroads === 0
          ? 'Everything in this backup is in the log already.'
          : `Brought back: ${evenings} evenings, ${railroads} railroads. Nothing that was in the log has changed.`;
      return good({ evenings, railroads, says });
    } finally {
      sound.close();
    }
  };

  const restore = async (file: string): Promise<Good<Restored> | Bad> => {
    if (isRestoring) return bad('refused', 'A backup is being restored already.');
    isRestoring = true;
    try {
      return await restoreFrom(file);
    } finally {
      isRestoring = false;
    }
  };

  const giveUp = () => {
    wantsRestored = false;
    for (const work of asked) work.giveUp();
  };

  return {
    giveUp,
    /** Waits for a backup that is being made. */
    settled: () => backup,
    backUpNow,
    calls: {
      'log.verify': async () => {
        const verdict = await goThrough(storage.log.name);
        if (verdict === null) return bad('refused', 'It was given up.');
        return good({ good: verdict.good, says: [...verdict.says] });
      },
      'log.giveUp': () => {
        giveUp();
        return good({});
      },
      'log.backup': backUpNow,
      'log.backups': () => good([...backupCards(storage.log.name)]),
      'log.restore': ({ file }: { file: string }) => restore(file),
    },
  };
}
