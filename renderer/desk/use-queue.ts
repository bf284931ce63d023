/** One act after the other: each looks at the evening as the one before left it, and none is lost while the host answers. */
import { useCallback, useRef } from 'react';

export function useQueue(): (job: () => Promise<void>) => void {
  const last = useRef<Promise<void>>(Promise.resolve());
  return useCallback((job) => {
    last.current = last.current.then(job, job);
  }, []);
}
