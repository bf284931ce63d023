/** The top line: clock, railroad time, phase of the session, oldest report, load of the hands, alarms. */
import { railroadMinutes } from '../../shared-model/session/orders/desk-orders.ts';
import { useConsole } from '../console/use-console.tsx';
import { clockTime, type DeskSource, stretch } from './desk-source.ts';

const HANDS_WINDOW_SECONDS = 300;

/** The train whose last report is oldest among those that run. */
function oldestReport({ state, seconds }: DeskSource): string | null {
  const running = Object.values(state.trains).filter(
    (train) => train.placed && !train.stopped && train.lastReportAt !== null,
  );
  const [oldest] = running.sort((a, b) => (a.lastReportAt ?? 0) - (b.lastReportAt ?? 0));
  return oldest === undefined
    ? null
    : `oldest report ${oldest.name} ${stretch(seconds - (oldest.lastReportAt ?? 0))}`;
}

/** Share of the last five minutes that the hands needed for throws. */
function handsLoad({ recent, seconds }: DeskSource, throwSeconds: number): number {
  const from = seconds - HANDS_WINDOW_SECONDS;
  const throws = recent.filter(
    ({ at, input, outcome }) =>
      at >= from &&
      outcome !== 'refused' &&
      ['turn-selector', 'throw-turnout', 'set-toggle'].includes(input.do),
  ).length;
  return Math.round((throws * throwSeconds * 100) / Math.min(HANDS_WINDOW_SECONDS, Math.max(60, seconds)));
}

const PHASES = {
  before: 'NOT OPEN',
  'making-up': 'MAKING UP',
  running: 'RUNNING',
  stopped: 'STOPPED',
  ended: 'ENDED',
} as const;

export function StatusLine({ source }: { readonly source: DeskSource }) {
  const throwSeconds = useConsole(({ settings }) => settings.throwSeconds);
  const { state, seconds } = source;
  const minutes = state.clock === null ? null : Math.floor(railroadMinutes(state.clock, seconds));
  const railroadTime =
    minutes === null
      ? null
      : `${Math.floor(minutes / 60)}:${String(minutes % 60).padStart(2, '0')} ${state.clock?.ratio ?? 1}:1`;
  const oldest = oldestReport(source);
  return (
    <header className="desk-status" data-zone="status">
      <strong>{clockTime(source.openedAt, seconds)}</strong>
      {railroadTime === null ? null : <span>railroad time {railroadTime}</span>}
      <strong>{source.kind === 'rehearsal' ? 'REHEARSAL, NOT LIVE' : PHASES[state.phase]}</strong>
      {state.alone ? <span>alone</span> : null}
      {source.resumed ? <span className="fine">resumed where it was</span> : null}
      {oldest === null ? null : <span>{oldest}</span>}
      <span>hands {handsLoad(source, throwSeconds)} %</span>
      <span>
        {state.checks.some(({ lapsed }) => lapsed)
          ? 'a phase check lapsed'
          : `${state.checks.length} phase checks`}
      </span>
      <span>
        {state.alarms.length === 0
          ? 'no alarm'
          : `${state.alarms.length} alarm${state.alarms.length === 1 ? '' : 's'}`}
      </span>
    </header>
  );
}
