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

/** Whether something stored has the shape of the draft's first value; a list has at least one such thing in it. */
function fitsLike(model: unknown, found: unknown): boolean {
  if (Array.isArray(model))
    return Array.isArray(found) && found.length > 0 && found.every((each) => fitsLike(model[0], each));
  if (typeof model !== 'object' || model === null) return typeof found === typeof model;
  if (typeof found !== 'object' || found === null) return false;
  return Object.entries(model).every(([name, value]) => fitsLike(value, Reflect.get(found, name)));
}

/**
 * @param first what it is before anything was typed
 * @returns the draft, and a function that changes some of its fields
 */
export function useDraft<Draft extends Readonly<Record<string, unknown>>>(
  key: string,
  first: Draft,
): readonly [Draft, (part: Partial<Draft>) => void] {
  const [draft, setDraft] = useState<Draft>(() => {
    const before = stored(key);
    const fits = ([name, value]: readonly [string, unknown]) => fitsLike(first[name], value);
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
