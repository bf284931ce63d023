/** The words of SAY as the evening goes on: those of the newest entry, those said again, or the stop words. */
import { useCallback, useMemo, useRef, useState } from 'react';
import type { TrainId } from '../../shared-model/ids.ts';
import { sayAgain, sayStopAll } from '../../shared-model/session/say.ts';
import { clockTime, type DeskSource } from './desk-source.ts';
import { readBackNow } from './read-backs.ts';
import { newestSpoken, type Saying, type Spoken } from './saying.ts';

export interface SayingNow {
  /** Null while nothing was spoken. */
  readonly now: Saying | null;
  /** Says the words of the picked train's authority again, or else the last ones. */
  readonly again: () => void;
  /** Shows the stop words, whatever the session's state. */
  readonly stopAll: () => void;
  /** Grows with each "say it again", for the voice. */
  readonly times: number;
}

export function useSaying(
  { railroad, state, recent, openedAt, latest }: DeskSource,
  picked: TrainId | null,
): SayingNow {
  const kept = useRef<Spoken | null>(null);
  const [own, setOwn] = useState<(Spoken & { readonly after: number }) | null>(null);
  const [times, setTimes] = useState(0);

  const newest = useMemo(() => {
    kept.current = newestSpoken({ railroad, state }, recent, kept.current, (at) => clockTime(openedAt, at));
    return kept.current;
  }, [railroad, state, recent, openedAt]);

  const readBack = useMemo(
    () => (state.phase === 'ended' ? null : readBackNow(state, recent)),
    [state, recent],
  );
  const moment = useRef({ latest, picked });
  moment.current = { latest, picked };

  /** Words that hold until the next entry is spoken. */
  const show = useCallback((words: string, far: boolean) => {
    setOwn({ entry: 0, words, far, after: kept.current?.entry ?? 0 });
    setTimes((before) => before + 1);
  }, []);
  const again = useCallback(() => {
    const { latest: read, picked: train } = moment.current;
    const now = read();
    const words = train === null ? null : sayAgain(now, train);
    const last = kept.current;
    if (words !== null) show(words, false);
    else if (last !== null) show(last.words, last.far);
  }, [show]);
  const stopAll = useCallback(() => show(sayStopAll(moment.current.latest().railroad), true), [show]);

  const spoken = own !== null && own.after >= (newest?.entry ?? 0) ? own : newest;
  return useMemo(
    () => ({ now: spoken === null ? null : { ...spoken, readBack }, again, stopAll, times }),
    [spoken, readBack, again, stopAll, times],
  );
}
