/** The top line: clock, railroad time, phase of the session, oldest report, load of the hands, phases, alarms. */
import type { SessionPhase } from '../../shared-model/session/state.ts';
import { useConsole } from '../console/use-console.tsx';
import { useVersionWords } from '../console/use-held-on.ts';
import { clockSeconds, clockTime, type DeskSource, stretch } from './desk-source.ts';
import { railroadTime } from './railroad-time.ts';
import { handsLoad, oldestReport, phaseWords } from './status-figures.ts';

const PHASES: Readonly<Record<SessionPhase, string>> = {
  before: 'NOT OPEN',
  'making-up': 'MAKING UP',
  running: 'RUNNING',
  stopped: 'STOPPED',
  ended: 'ENDED',
};
const KINDS: Readonly<Record<DeskSource['kind'], string>> = {
  live: '',
  rehearsal: 'REHEARSAL, NOT LIVE',
  replay: 'REPLAY, NOT LIVE',
};

function alarmWords({ state }: DeskSource): string {
  const count = state.alarms.length;
  return count === 0 ? 'no alarm' : `${count} alarm${count === 1 ? '' : 's'}`;
}

export function StatusLine({ source, locked }: { readonly source: DeskSource; readonly locked: boolean }) {
  const throwSeconds = useConsole(({ settings }) => settings.throwSeconds);
  const version = useVersionWords();
  const { railroad, state, recent, seconds, openedAt } = source;
  const oldest = oldestReport(state, seconds);
  const parts = [
    railroadTime(source) === null ? null : `railroad time ${railroadTime(source)}`,
    state.alone ? 'alone' : null,
    source.resumed ? 'resumed where it was' : null,
    oldest === null ? null : `oldest report ${oldest.name} ${stretch(oldest.seconds)}`,
    `hands ${handsLoad(recent, seconds, throwSeconds)} %`,
    phaseWords(railroad, state, (at) => clockTime(openedAt, at)),
    ...state.tripped.map((supply) => `${railroad.supplies.get(supply)?.name ?? supply} tripped`),
    state.tags.length === 0 ? null : `${state.tags.length} out of service`,
    alarmWords(source),
    source.kind === 'live' ? version : null,
  ].filter((part) => part !== null && part !== '');
  return (
    <header className="desk-status" data-zone="status">
      <strong className="desk-clock">{clockSeconds(openedAt, seconds)}</strong>
      <strong>{KINDS[source.kind] || PHASES[state.phase]}</strong>
      {locked ? <strong className="desk-locked">KEYS LOCKED</strong> : null}
      {parts.map((part) => (
        <span key={part}>{part}</span>
      ))}
    </header>
  );
}
