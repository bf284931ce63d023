/** Long work in a worker thread, one thread a job: progress and answer come as pushes, and a cancelled job answers with its best so far. */
import { Worker } from 'node:worker_threads';
import { z } from '../../shared-model/zod.ts';
import { type Bad, bad, type Good, good } from './answers.ts';
import { type PlannerJob, readPlannerTask } from './planner-task.ts';
import type { Pushes } from './pushes.ts';

/** Most jobs at a time: more threads than that only slow each other down. */
const MOST_JOBS = 4;
/** Most memory of one job's thread; one that wants more is ended and answers so. */
const MOST_MEGABYTES = 768;

/** What a worker tells. */
export const workerMessage = z.discriminatedUnion('tell', [
  z.strictObject({ tell: z.literal('progress'), says: z.string(), best: z.unknown().optional() }),
  z.strictObject({ tell: z.literal('done'), answer: z.unknown() }),
]);
export type WorkerMessage = z.infer<typeof workerMessage>;

/** A thread that does one job; a test stands in its own. */
export interface PlannerThread {
  onMessage(listener: (message: unknown) => void): void;
  onFault(listener: (says: string) => void): void;
  stop(): void;
}
export type StartThread = (job: PlannerJob) => PlannerThread;

function faultWords(error: Error & { readonly code?: string }, megabytes: number): string {
  return error.code === 'ERR_WORKER_OUT_OF_MEMORY'
    ? `This needs more memory than the ${megabytes} MB that one job may have.`
    : error.message;
}

/** Starts worker threads from a file: the bundle's when the host is bundled, else the source's. */
export function threadsFrom(file: URL, megabytes = MOST_MEGABYTES): StartThread {
  return (job) => {
    const worker = new Worker(file, {
      workerData: job,
      resourceLimits: { maxOldGenerationSizeMb: megabytes },
    });
    return {
      onMessage: (listener) => void worker.on('message', listener),
      onFault: (listener) => {
        worker.on('error', (error) => listener(faultWords(error, megabytes)));
        worker.on('exit', () => listener('The thread ended without an answer.'));
      },
      stop: () => void worker.terminate(),
    };
  };
}

export interface PlannerJobs {
  start(job: PlannerJob): Good<{ job: number }> | Bad;
  cancel(job: number): Good<Record<string, never>> | Bad;
  /** Ends all of them, when the host closes. */
  stopAll(): void;
}

export function plannerJobs(start: StartThread, pushes: Pushes): PlannerJobs {
  const going = new Map<number, { readonly thread: PlannerThread; best: unknown }>();
  let last = 0;

  const finish = (job: number, answer: unknown) => {
    const found = going.get(job);
    if (found === undefined) return;
    going.delete(job);
    found.thread.stop();
    pushes.tell('plan.done', { job, answer });
  };

  return {
    start: (request) => {
      if (going.size >= MOST_JOBS)
        return bad('refused', `${MOST_JOBS} plans are being worked on already; cancel one first.`);
      const task = readPlannerTask(request);
      if (!task.ok) return bad('bad-input', task.malformed.says, task.malformed.path);
      last += 1;
      const job = last;
      const thread = start(request);
      going.set(job, { thread, best: null });
      thread.onMessage((raw) => {
        const message = workerMessage.safeParse(raw);
        const found = going.get(job);
        if (!message.success || found === undefined) return;
        if (message.data.tell === 'done') return finish(job, message.data.answer);
        const { says, best } = message.data;
        if (best !== undefined) found.best = best;
        pushes.tell('plan.progress', best === undefined ? { job, says } : { job, says, best });
      });
      thread.onFault((says) => finish(job, { fault: says }));
      return good({ job });
    },
    cancel: (job) => {
      const found = going.get(job);
      if (found === undefined) return bad('not-found', `No plan ${job} is being worked on.`, '$.job');
      finish(job, { cancelled: true, best: found.best });
      return good({});
    },
    stopAll: () => {
      for (const { thread } of going.values()) thread.stop();
      going.clear();
    },
  };
}
