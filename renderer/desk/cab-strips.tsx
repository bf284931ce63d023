/** A strip for each cab: person, train, where it is on its authority, where to, what it waits for and how long. */
import type { ThrottleId, TrainId } from '../../shared-model/ids.ts';
import { authorityOf } from '../../shared-model/session/facts/authorities.ts';
import type { SessionInput } from '../../shared-model/session/input.ts';
import { spokenBlock, spokenDestination } from '../../shared-model/session/say.ts';
import type { TrainNow } from '../../shared-model/session/state.ts';
import { Act } from '../parts/act.tsx';
import { Badge } from '../parts/badge.tsx';
import { type DeskSource, stretch } from './desk-source.ts';

interface StripsProps {
  readonly source: DeskSource;
  readonly follow: TrainId | null;
  readonly onFollow: (train: TrainId) => void;
  readonly onSend: (inputs: readonly SessionInput[]) => void;
}

const SILENT_SECONDS = 90;

/** What a train does now, in one line. */
function trainWords({ railroad, state, seconds }: DeskSource, id: TrainId, train: TrainNow): string {
  const where = `in ${train.blocks.map((block) => spokenBlock(railroad, block)).join(', ') || 'no block'}`;
  const held = authorityOf(state, id)?.authority;
  const ask = state.asks.find((other) => other.train === id);
  const silent =
    !train.stopped && train.lastReportAt !== null && seconds - train.lastReportAt > SILENT_SECONDS;
  const flags = [
    train.derailed ? 'off the rails' : '',
    train.stalled ? 'stalled' : '',
    train.motionUnknown ? 'inch it' : '',
    silent ? `${train.name} where?` : '',
  ].filter((word) => word !== '');
  const move =
    held === undefined
      ? train.stopped
        ? 'stands'
        : 'runs'
      : held.kind === 'limits'
        ? `limits ${held.blocks.map((block) => spokenBlock(railroad, block)).join(', ')}`
        : `to ${spokenDestination(railroad, held.to)}${held.state === 'granted' ? ' (read back?)' : ''}`;
  const waits =
    ask === undefined
      ? ''
      : ask.free
        ? `${spokenDestination(railroad, ask.to)} is free now`
        : `waits ${stretch(seconds - (ask.calledAt ?? ask.since))} for ${spokenDestination(railroad, ask.to)}: ${ask.reasons[0]?.says ?? ''}`;
  return [where, move, ...flags, waits].filter((word) => word !== '').join(' · ');
}

function Strip({
  source,
  cab,
  index,
  follow,
  onFollow,
  onSend,
}: StripsProps & { readonly cab: ThrottleId; readonly index: number }) {
  const { state, seconds } = source;
  const now = state.cabs[cab];
  const trains = (Object.entries(state.trains) as [TrainId, TrainNow][]).filter(
    ([, train]) => train.placed && train.cab === cab,
  );
  const called = now?.calledAt ?? null;
  return (
    <li className="desk-strip" data-cab={cab} data-hue={index + 1}>
      <Badge index={index} mark={cab} label={`Cab ${cab}`} />
      <strong className="desk-strip-person">{now?.person ?? '–'}</strong>
      <div className="desk-strip-trains">
        {trains.length === 0 ? (
          <span className="quiet">{now?.person === null ? 'free' : 'no train'}</span>
        ) : null}
        {trains.map(([id, train]) => (
          <button
            key={id}
            type="button"
            className="desk-train"
            aria-pressed={follow === id}
            onClick={() => onFollow(id)}
          >
            <strong>{train.name}</strong> <span>{trainWords(source, id, train)}</span>
          </button>
        ))}
      </div>
      {called === null ? null : <strong>called {stretch(seconds - called)}</strong>}
      {state.phase === 'running' && now?.person !== null ? (
        <>
          <Act kind="calm" onPress={() => onSend([{ do: 'call', cab }])}>
            Calls
          </Act>
          <Act
            kind="calm"
            onPress={() => onSend([{ do: 'handle-at-zero', cab }])}
            pressed={now?.atZero ?? false}
          >
            At zero
          </Act>
          <Act kind="calm" onPress={() => onSend([{ do: 'stop-called', cab }])}>
            Call stop
          </Act>
        </>
      ) : null}
    </li>
  );
}

export function CabStrips(props: StripsProps) {
  return (
    <section className="desk-cabs" data-zone="cabs" aria-label="Cabs">
      <ul>
        {props.source.railroad.document.throttles.map(({ id }, index) => (
          <Strip key={id} {...props} cab={id} index={index} />
        ))}
      </ul>
    </section>
  );
}
