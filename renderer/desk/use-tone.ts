/** A tone when an alarm of the rank danger is raised, if sound is on. */
import { useEffect } from 'react';
import { alarmRank } from '../../shared-model/session/alarms/rank.ts';
import { useConsole } from '../console/use-console.tsx';
import type { DeskSource } from './desk-source.ts';

const TONE_HERTZ = 880;
const TONE_SECONDS = 0.6;

function sound(): void {
  const context = new AudioContext();
  const tone = context.createOscillator();
  const loudness = context.createGain();
  tone.frequency.value = TONE_HERTZ;
  loudness.gain.value = 0.2;
  tone.connect(loudness).connect(context.destination);
  tone.start();
  tone.stop(context.currentTime + TONE_SECONDS);
  tone.onended = () => void context.close();
}

export function useTone(source: DeskSource): void {
  const on = useConsole(({ settings }) => settings.sound);
  const { state, kind } = source;
  const dangers = state.alarms
    .filter((alarm) => !alarm.seen && alarmRank(source, alarm) === 'danger')
    .map(({ entry }) => entry)
    .join(' ');
  useEffect(() => {
    if (on && kind === 'live' && dangers !== '') sound();
  }, [on, kind, dangers]);
}
