/** The system's voice speaks what SAY shows, if the user wants it. Only of the live evening. */
import { useEffect } from 'react';
import { useConsole } from '../console/use-console.tsx';
import type { DeskSource } from './desk-source.ts';
import type { Desk } from './use-desk.ts';

/** Words older than this when they come up are not spoken: the page was opened later. */
const FRESH_SECONDS = 10;

export function useVoice({ kind, recent, seconds, state }: DeskSource, { saying }: Desk): void {
  const speech = useConsole(({ settings }) => settings.speech);
  const { now, times } = saying;
  const entry = now?.entry ?? 0;
  const words = now?.words ?? '';
  const spokenAt = recent.find((event) => event.entry === entry)?.at ?? seconds;
  const fresh = seconds - spokenAt < FRESH_SECONDS;
  const speaks = speech && kind === 'live' && fresh && words !== '' && (!state.alone || now?.far === true);
  // biome-ignore lint/correctness/useExhaustiveDependencies: once for each entry, and again each time "say it again" is asked
  useEffect(() => {
    if (!speaks || !('speechSynthesis' in window)) return;
    window.speechSynthesis.cancel();
    window.speechSynthesis.speak(new SpeechSynthesisUtterance(words));
  }, [speaks, entry, words, times]);
}
