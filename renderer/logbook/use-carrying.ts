/** Carrying an evening out or in: what is told of it while it goes on, and giving it up; leaving the screen gives it up too. */
import { useEffect, useRef, useState } from 'react';
import type { Follower } from './carry-evening.ts';

export function useCarrying(tell: (words: string) => void) {
  const going = useRef<AbortController | null>(null);
  const [isGoing, setIsGoing] = useState(false);
  useEffect(() => () => going.current?.abort(), []);
  return {
    /** Null while nothing is carried. */
    giveUp: isGoing ? () => going.current?.abort() : null,
    follow: async <Value>(carry: (follower: Follower) => Promise<Value>): Promise<Value> => {
      going.current?.abort();
      const controller = new AbortController();
      going.current = controller;
      setIsGoing(true);
      try {
        return await carry({ tell, signal: controller.signal });
      } finally {
        if (going.current === controller) setIsGoing(false);
      }
    },
  };
}
