/** The sizes of letters on this screen, for what is laid out in pixels and not by the page. */
import { useMemo } from 'react';
import { useConsole } from '../console/use-console.tsx';
import { type LetterSizes, letterSizes } from './letter-sizes.ts';

export function useLetterSizes(): LetterSizes {
  const settings = useConsole((state) => state.settings);
  const { width, height } = window.screen;
  return useMemo(() => letterSizes({ ...settings, screenPx: [width, height] }), [settings, width, height]);
}
