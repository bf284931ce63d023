/** The thread that goes through a log or a copy of one: does the one task it was started with, tells how far it is, and gives the verdict. */
import { parentPort, workerData } from 'node:worker_threads';
import { doLogTask, logTask } from './log/log-task.ts';
import type { LogWorkerMessage } from './log-thread.ts';

const post = (message: LogWorkerMessage) => parentPort?.postMessage(message);
const verdict = doLogTask(logTask.parse(workerData), (progress) => post({ tell: 'progress', progress }));
post({ tell: 'done', verdict: { good: verdict.good, says: [...verdict.says] } });
