/** Long work in a worker thread, one thread a job: progress and answer come as pushes, and a cancelled job answers with its best so far. */
import { Worker } from 'node:worker_threads';
import type { RequestOf } from '../../shared-model/wire/contract.ts';
import { z } from '../../shared-model/zod.ts';
import { type Bad, bad, type Good, good } from './answers.ts';
import type { Pushes } from './pushes.ts';

/** Most jobs at a time: more threads than that only slow each other down. */
const MOST_JOBS = 4;

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
export type StartThread = (job: RequestOf<'plan.start'>) => PlannerThread;

/** Starts worker threads from a file: the bundle's when the host is bundled, else the source's. */
export function threadsFrom(file: URL): StartThread {
  return (job) => {
    const worker = new Worker(file, { workerData: job });
    return {
      onMessage: (listener) => void worker.on('message', listener),
      onFault: (listener) => void worker.on('error', (error) => listener(error.message)),
      stop: () => void worker.terminate(),
    };
  };
}

export interface PlannerJobs {
  start(job: RequestOf<'plan.start'>): Good<{ job: number }> | Bad;
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
