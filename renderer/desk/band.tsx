/** The band: above, the standing alarms; below, the answer to what was asked, with its ways out. Empty grey when there is nothing. */
import { useState } from 'react';
import { Act } from '../parts/act.tsx';
import { Hatch } from '../parts/hatch.tsx';
import { alarmHead, alarmList, alarmOptions, alarmSteps, type RankedAlarm } from './alarm-list.ts';
import { answerHead, answerWords } from './answer-words.ts';
import type { DeskSource } from './desk-source.ts';
import { send } from './entry-line/reading.ts';
import { type Option, optionOf } from './option.ts';
import type { Desk } from './use-desk.ts';

interface BandProps {
  readonly source: DeskSource;
  readonly desk: Desk;
}

function Options({ desk, options }: { readonly desk: Desk; readonly options: readonly Option[] }) {
  return (
    <div className="desk-options">
      {options.map((option, index) => (
        <Act key={option.says} pressed={desk.optionAt === index} onPress={() => desk.takeOption(option)}>
          {option.says}
        </Act>
      ))}
    </div>
  );
}

function AlarmRow({
  source,
  desk,
  ranked,
  onTop,
  others,
}: BandProps & {
  readonly ranked: RankedAlarm;
  /** The one that its key means. */
  readonly onTop: boolean;
  readonly others: React.ReactNode;
}) {
  const { alarm, rank } = ranked;
  const seen = optionOf(send('seen', { do: 'alarm-seen', alarm: alarm.entry }));
  return (
    <div className="desk-row" data-rank={rank} role={rank === 'danger' ? 'alert' : undefined}>
      <span className="desk-hatch" aria-hidden="true">
        <Hatch />
      </span>
      <strong className={rank === 'book' ? 'desk-head' : 'desk-head desk-far'}>
        {alarmHead(source, alarm)}
      </strong>
      <span className="desk-reason">
        {[alarm.says, alarmSteps(alarm)].filter(Boolean).join(' ')}
        {alarm.count > 1 ? ` ${alarm.count} times.` : ''}
        {rank === 'danger' ? ' CALL ALL STOP.' : ''}
      </span>
      <div className="desk-options">
        {alarmOptions(source, alarm).map((option, index) => (
          <Act
            key={option.says}
            keyName={onTop && index === 0 ? 'F12' : undefined}
            onPress={() => desk.takeOption(option)}
          >
            {option.says}
          </Act>
        ))}
        {alarm.seen || source.state.phase === 'ended' ? null : (
          <Act kind="calm" keyName="End" onPress={() => desk.takeOption(seen)}>
            Seen
          </Act>
        )}
        {others}
      </div>
    </div>
  );
}

function Alarms({ source, desk }: BandProps) {
  const { shown, behind } = alarmList(source, source.seconds);
  const [turned, setTurned] = useState(0);
  const first = shown.find(({ rank, alarm }) => rank === 'danger' && !alarm.seen);
  const ranked = first ?? shown[turned % Math.max(shown.length, 1)];
  const more = shown.length - 1;
  const others = (
    <>
      {more > 0 ? (
        <Act kind="calm" onPress={() => setTurned(turned + 1)} label={`+${more} more alarms`}>
          +{more}
        </Act>
      ) : null}
      {behind > 0 ? <span>record behind: {behind}</span> : null}
    </>
  );
  if (ranked === undefined) return <div className="desk-row">{behind > 0 ? others : null}</div>;
  return <AlarmRow source={source} desk={desk} ranked={ranked} onTop={ranked === shown[0]} others={others} />;
}

function Answer({ source, desk }: BandProps) {
  const { answer, offer } = desk;
  const refused = answer?.kind === 'refused' && offer?.says !== 'Which?' ? answer.event : null;
  const says = offer?.says || (answer === null ? (source.notice ?? '') : answerWords(source, answer));
  return (
    <div className="desk-row" aria-live="polite">
      {refused === null ? null : (
        <strong className="desk-head desk-far">{answerHead(source, refused)}</strong>
      )}
      <span className="desk-reason">{says}</span>
      {offer === null ? null : <Options desk={desk} options={offer.options} />}
    </div>
  );
}

export function Band(props: BandProps) {
  return (
    <section className="desk-band" data-zone="band" aria-label="Alarms and answers">
      <Alarms {...props} />
      <Answer {...props} />
    </section>
  );
}
