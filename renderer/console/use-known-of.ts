/** What is known of one thing of many: of another one nothing is known yet, from the first drawing on. */
import { useCallback, useState } from 'react';

/**
 * State that belongs to what a key names. An effect that only sets it back when the key has changed would leave what belonged
 * to the thing before in sight for a moment, and an act in that moment would go to the wrong one.
 *
 * @param key names the thing: its id, and whatever else makes it another one
 * @param isSame (the same function each time) whether something new says what is known already: then nothing is drawn again
 * @returns what is known of it (null until something is), and the way to say what is
 */
export function useKnownOf<Value>(
  key: string,
  isSame: (before: Value, now: Value) => boolean = Object.is,
): readonly [Value | null, (value: Value) => void] {
  const [known, setKnown] = useState<{ readonly key: string; readonly value: Value } | null>(null);
  const know = useCallback(
    (value: Value) =>
      setKnown((before) => (before?.key === key && isSame(before.value, value) ? before : { key, value })),
    [key, isSame],
  );
  return [known?.key === key ? known.value : null, know];
}
