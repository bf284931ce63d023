/** A value that comes a frame later: what hangs on it is worked out when the frame of the change itself is on the screen. */
import { startTransition, useEffect, useState } from 'react';

export function useAfterPaint<Value>(value: Value): Value {
  const [painted, setPainted] = useState(value);
  useEffect(() => {
    let timer = 0;
    const frame = requestAnimationFrame(() => {
      // Callbacks of a frame come before it is painted, tasks after it.
      timer = window.setTimeout(() => startTransition(() => setPainted(() => value)));
    });
    return () => {
      cancelAnimationFrame(frame);
      window.clearTimeout(timer);
    };
  }, [value]);
  return painted;
}
