/** Long work: progress and answer as pushes, a cancelled job answers with its best so far, a thread that breaks is told. */
import { expect, test } from 'vitest';
import { type PlannerThread, plannerJobs } from '../../electron/host/planner-jobs.ts';
import { makePushes, type Push } from '../../electron/host/pushes.ts';
import { passingSidingExample } from '../support/example.ts';

const JOB = { task: 'plan' as const, document: passingSidingExample, situation: { trains: [] }, options: {} };

/** Jobs on threads that the test speaks for. */
function spokenFor() {
  const threads: { say: (message: unknown) => void; breakDown: (says: string) => void; stopped: boolean }[] =
    [];
  const told: Push[] = [];
  const pushes = makePushes();
  pushes.subscribe((push) => told.push(push));
  const jobs = plannerJobs((): PlannerThread => {
    const thread = { say: (_: unknown) => {}, breakDown: (_: string) => {}, stopped: false };
    threads.push(thread);
    return {
      onMessage: (listener) => {
        thread.say = listener;
      },
      onFault: (listener) => {
        thread.breakDown = listener;
      },
      stop: () => {
        thread.stopped = true;
      },
    };
  }, pushes);
  return { jobs, threads, told };
}

test('progress and answer come as pushes with the number of the job, and the thread ends', () => {
  const { jobs, threads, told } = spokenFor();
  expect(jobs.start(JOB)).toEqual({ ok: true, value: { job: 1 } });
  threads[0]?.say({ tell: 'progress', says: '2 plans tried', best: { total: 90 } });
  threads[0]?.say({ tell: 'done', answer: { verdict: 'planned' } });
  threads[0]?.say({ tell: 'progress', says: 'too late' });
  expect(told).toEqual([
    { push: 'plan.progress', value: { job: 1, says: '2 plans tried', best: { total: 90 } } },
    { push: 'plan.done', value: { job: 1, answer: { verdict: 'planned' } } },
  ]);
  expect(threads[0]?.stopped).toBe(true);
});

test('a cancelled job answers with the best it had', () => {
  const { jobs, threads, told } = spokenFor();
  jobs.start(JOB);
  threads[0]?.say({ tell: 'progress', says: 'first', best: { total: 90 } });
  threads[0]?.say({ tell: 'progress', says: 'no better' });
  expect(jobs.cancel(1)).toEqual({ ok: true, value: {} });
  expect(told.at(-1)).toEqual({
    push: 'plan.done',
    value: { job: 1, answer: { cancelled: true, best: { total: 90 } } },
  });
  expect(jobs.cancel(1)).toMatchObject({ ok: false, problem: { kind: 'not-found' } });
});

test('a thread that breaks down, or says what it should not, does no harm', () => {
  const { jobs, threads, told } = spokenFor();
  jobs.start(JOB);
  threads[0]?.say({ tell: 'nonsense' });
  expect(told).toEqual([]);
  threads[0]?.breakDown('out of memory');
  expect(told).toEqual([{ push: 'plan.done', value: { job: 1, answer: { fault: 'out of memory' } } }]);
});

test('no more than four at a time, and closing stops them all', () => {
  const { jobs, threads } = spokenFor();
  for (let job = 1; job <= 4; job += 1) expect(jobs.start(JOB).ok).toBe(true);
  expect(jobs.start(JOB)).toMatchObject({ ok: false, problem: { kind: 'refused' } });
  jobs.stopAll();
  expect(threads.map(({ stopped }) => stopped)).toEqual([true, true, true, true]);
});
