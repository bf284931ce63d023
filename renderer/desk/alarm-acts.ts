/** What the keys for alarms do: one has been seen, or what mends the one on top is done. */
import { alarmHead, alarmList, alarmOptions } from './alarm-list.ts';
import { type LineContext, send } from './entry-line/reading.ts';
import { type Doing, doingOf, optionOf, tell } from './option.ts';

/** The oldest alarm that nobody has seen yet. */
export function alarmSeen({ state }: LineContext): Doing {
  const alarm = state.alarms.find(({ seen }) => !seen);
  return alarm === undefined
    ? tell('No alarm is unseen.')
    : {
        kind: 'do',
        option: optionOf(send('seen', { do: 'alarm-seen', alarm: alarm.entry })),
      };
}

/** What mends the alarm on top of the band: done where one thing does, a list where there are several. */
export function alarmMended(context: LineContext): Doing {
  const top = alarmList(context, context.state.at).shown[0]?.alarm;
  if (top === undefined) return tell('No alarm stands.');
  const head = alarmHead(context, top);
  return doingOf(
    alarmOptions(context, top),
    `${head}:`,
    `${head}: nothing to say ends it; NEXT shows the throw.`,
  );
}
