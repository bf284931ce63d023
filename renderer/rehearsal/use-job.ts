/** One job of the planner's worker as a screen follows it: how it goes, the best so far, its answer, or what was wrong with it. */
import { useCallback, useEffect, useRef, useState } from 'react';
import type { PushOf, RequestOf } from '../../shared-model/wire/contract.ts';
import { useConsoleStore } from '../console/use-console.tsx';

export type JobState =
  | { readonly is: 'idle' }
  | { readonly is: 'working'; readonly job: number | null; readonly says: string; readonly best: unknown }
  | { readonly is: 'answered'; readonly answer: unknown }
  | { readonly is: 'wrong'; readonly says: string; readonly path: string };

type Told =
  | { readonly push: 'progress'; readonly value: PushOf<'plan.progress'> }
  | { readonly push: 'done'; readonly value: PushOf<'plan.done'> };

export interface Job {
  readonly state: JobState;
  readonly start: (request: RequestOf<'plan.start'>) => Promise<void>;
  /** Ends it; it answers with its best so far. */
  readonly cancel: () => Promise<void>;
  /** Forgets what it answered; one that is at work is ended, and what it still says is not heard. */
  readonly clear: () => void;
}

const LOST = 'The connection to the host was lost while it was worked out. Ask again.';

export function useJob(): Job {
  const { connection } = useConsoleStore();
  const [state, setState] = useState<JobState>({ is: 'idle' });
  const job = useRef<number | null>(null);
  // A push may come before the answer that names the job; of jobs of other windows nothing is kept.
  const asking = useRef(false);
  const early = useRef<Told[]>([]);
  /** Counts what was asked and what was given up: only the answer to the newest is wanted. */
  const newest = useRef(0);

  const hear = useCallback((told: Told) => {
    if (told.value.job !== job.current) {
      if (asking.current) early.current.push(told);
      return;
    }
    if (told.push === 'done') {
      job.current = null;
      setState({ is: 'answered', answer: told.value.answer });
      return;
    }
    const { says, best } = told.value;
    setState((before) => ({
      is: 'working',
      job: told.value.job,
      says,
      best: best ?? (before.is === 'working' ? before.best : null),
    }));
  }, []);

  useEffect(() => {
    const ends = [
      connection.on('plan.progress', (value) => hear({ push: 'progress', value })),
      connection.on('plan.done', (value) => hear({ push: 'done', value })),
    ];
    return () => {
      for (const end of ends) end();
      newest.current += 1;
      if (job.current !== null) void connection.call('plan.cancel', { job: job.current });
    };
  }, [connection, hear]);

  // Its end may never be told: a host that was started anew knows nothing of it.
  useEffect(
    () =>
      connection.onLink((link) => {
        if (link !== 'lost' || (job.current === null && !asking.current)) return;
        job.current = null;
        asking.current = false;
        newest.current += 1;
        setState({ is: 'wrong', says: LOST, path: '$' });
      }),
    [connection],
  );

  const start = useCallback(
    async (request: RequestOf<'plan.start'>) => {
      if (job.current !== null) void connection.call('plan.cancel', { job: job.current });
      early.current = [];
      job.current = null;
      newest.current += 1;
      const mine = newest.current;
      setState({ is: 'working', job: null, says: 'Begun.', best: null });
      asking.current = true;
      const answer = await connection.call('plan.start', request);
      // Given up, or asked anew meanwhile: its answer would be taken for the newer one's.
      if (mine !== newest.current) {
        if (answer.ok) await connection.call('plan.cancel', { job: answer.value.job });
        return;
      }
      asking.current = false;
      if (!answer.ok) {
        setState({ is: 'wrong', says: answer.problem.says, path: answer.problem.path ?? '$' });
        return;
      }
      job.current = answer.value.job;
      setState((before) => (before.is === 'working' ? { ...before, job: answer.value.job } : before));
      for (const told of early.current.splice(0)) hear(told);
    },
    [connection, hear],
  );
  const cancel = useCallback(async () => {
    if (job.current !== null) await connection.call('plan.cancel', { job: job.current });
  }, [connection]);
  const clear = useCallback(() => {
    if (job.current !== null) void connection.call('plan.cancel', { job: job.current });
    job.current = null;
    asking.current = false;
    newest.current += 1;
    setState({ is: 'idle' });
  }, [connection]);
  return { state, start, cancel, clear };
}
