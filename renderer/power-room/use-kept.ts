/** Documents of one kind that the host keeps, and a way to keep one more. */
import { useCallback, useEffect, useState } from 'react';
import type { Answer, ReplyOf } from '../../shared-model/wire/contract.ts';
import { useConsoleStore } from '../console/use-console.tsx';

export type Kept = ReplyOf<'keep.list'>[number];

interface KeptOfKind {
  /** Null until the host has answered. */
  readonly kept: readonly Kept[] | null;
  /** Keeps one more under a name made from the moment; the answer tells when it could not be kept. */
  readonly keep: (value: unknown) => Promise<Answer<ReplyOf<'keep.write'>>>;
}

export function useKept(kind: string): KeptOfKind {
  const store = useConsoleStore();
  const [kept, setKept] = useState<readonly Kept[] | null>(null);
  const read = useCallback(async () => {
    const answer = await store.connection.call('keep.list', { kind });
    if (answer.ok) setKept(answer.value);
  }, [store, kind]);
  useEffect(() => {
    void read();
  }, [read]);
  const keep = useCallback(
    async (value: unknown) => {
      const id = new Date().toISOString();
      const answer = await store.connection.call('keep.write', { kind, id, value });
      await read();
      return answer;
    },
    [store, kind, read],
  );
  return { kept, keep };
}
