/** The planner's thread: does the one job that it was started with, tells how it goes, and gives the answer. */
import { parentPort, workerData } from 'node:worker_threads';
import { CALLS } from '../../shared-model/wire/contract.ts';
import type { WorkerMessage } from './planner-jobs.ts';
import { readPlannerTask } from './planner-task.ts';
import { doPlannerTask } from './planner-work.ts';

const post = (message: WorkerMessage) => parentPort?.postMessage(message);
const task = readPlannerTask(CALLS['plan.start'].request.parse(workerData));
// The host has read the same job before, so this is a fault and not an answer.
if (!task.ok) throw new Error(`${task.malformed.path}: ${task.malformed.says}`);
const answer = doPlannerTask(task.value, {
  now: () => performance.now(),
  tell: (report) => post({ tell: 'progress', ...report }),
});
post({ tell: 'done', answer });
