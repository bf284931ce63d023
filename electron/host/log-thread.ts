/** Goes through a log in a thread of its own, so that the evening that is going on does not wait. */
import { statSync } from 'node:fs';
import { Worker } from 'node:worker_threads';
import { z } from '../../shared-model/zod.ts';
import { GIVEN_UP } from './by-turns.ts';
import { doLogTask, type LogTask } from './log/log-task.ts';
import type { LogProgress, Verdict } from './log/verify.ts';

/** A smaller log is gone through in less time than a thread takes to start. */
const IN_PLACE_BYTES = 4_000_000;

const workerMessage = z.discriminatedUnion('tell', [
  z.strictObject({
    tell: z.literal('progress'),
    progress: z.strictObject({ entries: z.number(), of: z.number() }),
  }),
  z.strictObject({
    tell: z.literal('done'),
    verdict: z.strictObject({ good: z.boolean(), says: z.array(z.string()) }),
  }),
]);
export type LogWorkerMessage = z.infer<typeof workerMessage>;

/** A task that is being done; a test stands in its own. */
export interface LogWork {
  /** Rejects where the thread breaks. */
  readonly verdict: Promise<Verdict | typeof GIVEN_UP>;
  readonly giveUp: () => void;
}
export type StartLogWork = (task: LogTask, tell: (progress: LogProgress) => void) => LogWork;

function inPlace(task: LogTask, tell: (progress: LogProgress) => void): LogWork {
  const verdict = Promise.resolve().then(() => doLogTask(task, tell));
  return { verdict, giveUp: () => undefined };
}

function inThread(file: URL, task: LogTask, tell: (progress: LogProgress) => void): LogWork {
  const worker = new Worker(file, { workerData: task });
  const givenUp = new Promise<typeof GIVEN_UP>((resolve) => {
    worker.on('exit', () => resolve(GIVEN_UP));
  });
  const answered = new Promise<Verdict>((resolve, reject) => {
    worker.on('message', (raw) => {
      const message = workerMessage.parse(raw);
      if (message.tell === 'progress') tell(message.progress);
      else resolve(message.verdict);
    });
    worker.on('error', reject);
  });
  return { verdict: Promise.race([answered, givenUp]), giveUp: () => void worker.terminate() };
}

/**
 * Starts a thread a task from a file: the bundle's when the host is bundled, else the source's.
 *
 * @param inPlaceBytes a log up to this size is gone through at once
 */
export const logThreadsFrom =
  (file: URL, inPlaceBytes = IN_PLACE_BYTES): StartLogWork =>
  (task, tell) =>
    statSync(task.file).size <= inPlaceBytes ? inPlace(task, tell) : inThread(file, task, tell);
