/** What the scrubber has to know of the whole evening: how its entries lie in time, and where the next refusal or alarm is. */
import { useEffect, useState } from 'react';
import type { Outline } from '../../shared-model/wire/evening-calls.ts';
import { useConsoleStore } from '../console/use-console.tsx';

const BINS = 240;

/** How the entries of an evening lie in time; empty until the host has told. */
export function useOutline(id: string): Outline {
  const { connection } = useConsoleStore();
  const [outline, setOutline] = useState<Outline>({ bins: [] });
  useEffect(() => {
    let wanted = true;
    void connection.call('evenings.outline', { id, bins: BINS }).then((answer) => {
      if (wanted && answer.ok) setOutline(answer.value);
    });
    return () => {
      wanted = false;
    };
  }, [connection, id]);
  return outline;
}

export interface Marks {
  /** Entry of the last refusal or alarm before the moment. */
  readonly before: number | null;
  readonly next: number | null;
}

/** The refusals or alarms nearest to a moment. */
export function useMarks(id: string, position: number): Marks {
  const { connection } = useConsoleStore();
  const [marks, setMarks] = useState<Marks>({ before: null, next: null });
  useEffect(() => {
    let wanted = true;
    const ask = (direction: 'next' | 'before') =>
      connection.call('evenings.markFrom', { id, entry: position, direction });
    void Promise.all([ask('before'), ask('next')]).then(([before, next]) => {
      if (wanted)
        setMarks({ before: before.ok ? before.value.entry : null, next: next.ok ? next.value.entry : null });
    });
    return () => {
      wanted = false;
    };
  }, [connection, id, position]);
  return marks;
}
