/** The band: a refusal with its ways out, or the standing alarms by rank; empty grey when there is nothing. */
import { type AlarmRank, alarmRank } from '../../shared-model/session/alarms/rank.ts';
import type { SessionEvent } from '../../shared-model/session/event.ts';
import type { AlarmNow } from '../../shared-model/session/state.ts';
import { Act } from '../parts/act.tsx';
import { Hatch } from '../parts/hatch.tsx';
import type { DeskSource } from './desk-source.ts';
import type { WayOut } from './ways-out.ts';

interface BandProps {
  readonly source: DeskSource;
  readonly refused: SessionEvent | null;
  readonly ways: readonly WayOut[];
  readonly chosen: number;
  readonly problem: string | null;
  readonly onWay: (way: WayOut) => void;
  readonly onSend: (items: readonly { input: SessionEvent['input'] }[]) => void;
}

const RANK_ORDER: readonly AlarmRank[] = ['danger', 'act', 'book'];
const FLOOD = 10;
const FLOOD_SECONDS = 600;

interface Ranked {
  readonly alarm: AlarmNow;
  readonly rank: AlarmRank;
}

/** Alarms by rank, newest first; above ten in ten minutes the book rank is one line. */
function rankedAlarms({ railroad, state, seconds }: DeskSource): {
  readonly shown: readonly Ranked[];
  readonly behind: number;
} {
  const ranked = state.alarms
    .map((alarm): Ranked => ({ alarm, rank: alarmRank({ railroad, state }, alarm) }))
    .sort((a, b) => RANK_ORDER.indexOf(a.rank) - RANK_ORDER.indexOf(b.rank) || b.alarm.at - a.alarm.at);
  const flood = state.alarms.filter(({ at }) => at > seconds - FLOOD_SECONDS).length > FLOOD;
  const shown = flood ? ranked.filter(({ rank }) => rank !== 'book') : ranked;
  return { shown, behind: ranked.length - shown.length };
}

function AlarmRow({ ranked, onSend }: { readonly ranked: Ranked; readonly onSend: BandProps['onSend'] }) {
  const { alarm, rank } = ranked;
  const block = alarm.about.find((_, index) => index === 1);
  const settles =
    (alarm.code === 'entered-unauthorised' || alarm.code === 'not-adjacent') && block !== undefined;
  return (
    <div className="desk-alarm" data-rank={rank} role={rank === 'danger' ? 'alert' : undefined}>
      <span className="desk-hatch" aria-hidden="true">
        <Hatch />
      </span>
      <strong>{alarm.says}</strong>
      {alarm.count > 1 ? <span className="fine">{alarm.count} times</span> : null}
      {settles ? (
        <>
          <Act
            onPress={() =>
              onSend([
                {
                  input: {
                    do: 'settle',
                    block: block as never,
                    state: 'occupied',
                    train: alarm.about[0] as never,
                  },
                },
              ])
            }
          >
            It is there
          </Act>
          <Act onPress={() => onSend([{ input: { do: 'settle', block: block as never, state: 'open' } }])}>
            It is not
          </Act>
        </>
      ) : null}
      {alarm.code === 'breaker' ? (
        <Act onPress={() => onSend([{ input: { do: 'breaker-reset', supply: alarm.about[0] as never } }])}>
          Reset
        </Act>
      ) : null}
      {alarm.code === 'off-the-rails' ? (
        <Act onPress={() => onSend([{ input: { do: 'rerailed', train: alarm.about[0] as never } }])}>
          Rerailed
        </Act>
      ) : null}
      {alarm.seen ? null : (
        <Act kind="calm" onPress={() => onSend([{ input: { do: 'alarm-seen', alarm: alarm.entry } }])}>
          Seen
        </Act>
      )}
    </div>
  );
}

export function Band({ source, refused, ways, chosen, problem, onWay, onSend }: BandProps) {
  const { shown, behind } = rankedAlarms(source);
  return (
    <section className="desk-band" data-zone="band" aria-label="Answers and alarms">
      <div aria-live="polite">
        {problem === null ? null : <p className="desk-problem">{problem}</p>}
        {refused === null ? null : (
          <div className="desk-refused">
            <strong className="desk-refused-head">REFUSED</strong>
            <span>{refused.reasons.map(({ says }) => says).join(' ')}</span>
            {ways.map((way, index) => (
              <Act key={way.says} pressed={index === chosen} onPress={() => onWay(way)}>
                {way.says}
              </Act>
            ))}
          </div>
        )}
      </div>
      {shown.map((ranked) => (
        <AlarmRow
          key={`${ranked.alarm.code} ${ranked.alarm.about.join(' ')}`}
          ranked={ranked}
          onSend={onSend}
        />
      ))}
      {behind > 0 ? <p>record behind: {behind}</p> : null}
    </section>
  );
}
