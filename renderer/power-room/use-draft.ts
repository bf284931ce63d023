/** What was typed or ticked, kept while the page is open: leaving the screen or loading the page again loses nothing. */
import { useCallback, useState } from 'react';

const PREFIX = 'cabward.power-room.';

function stored(key: string): unknown {
  try {
    return JSON.parse(window.sessionStorage.getItem(PREFIX + key) ?? 'null');
  } catch {
    // Somebody else's text under our name, or no storage at all: begin anew.
    return null;
  }
}

/**
 * @param first what it is before anything was typed
 * @returns the draft, and a function that changes some of its fields
 */
export function useDraft<Draft extends Readonly<Record<string, string | boolean>>>(
  key: string,
  first: Draft,
): readonly [Draft, (part: Partial<Draft>) => void] {
  const [draft, setDraft] = useState<Draft>(() => {
    const before = stored(key);
    const fits = ([name, value]: readonly [string, unknown]) => typeof first[name] === typeof value;
    return typeof before === 'object' && before !== null
      ? { ...first, ...Object.fromEntries(Object.entries(before).filter(fits)) }
      : first;
  });
  const change = useCallback(
    (part: Partial<Draft>) =>
      setDraft((now) => {
        const next = { ...now, ...part };
        try {
          window.sessionStorage.setItem(PREFIX + key, JSON.stringify(next));
        } catch {
          // No storage: the draft lives as long as the screen.
        }
        return next;
      }),
    [key],
  );
  return [draft, change];
}
