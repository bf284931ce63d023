/** The calendar's moment in milliseconds, anew each minute: ages of checks are told in minutes and hours. */
import { useEffect, useState } from 'react';

const MINUTE = 60_000;

export function useNow(): number {
  const [now, setNow] = useState(() => Date.now());
  useEffect(() => {
    const timer = window.setInterval(() => setNow(Date.now()), MINUTE);
    return () => window.clearInterval(timer);
  }, []);
  return now;
}
