/** Raises alarms into the state: the same alarm on the same thing while it stands is counted, not repeated. */
import { ALARM_CODES, type Alarm } from '../../refusal.ts';
import { alarm as sentence } from '../rules/sentences.ts';
import type { Raised } from '../ruling.ts';
import type { AlarmNow } from '../state.ts';
import { type World, withState } from '../world.ts';

const sameAlarm = (a: Pick<Raised, 'code' | 'about'>, b: Pick<Raised, 'code' | 'about'>): boolean =>
  a.code === b.code &&
  a.about.length === b.about.length &&
  a.about.every((id, index) => id === b.about[index]);

/** The world with these alarms, and those of them that are new, in the order of the table. */
export function raiseAlarms(
  world: World,
  raised: readonly Raised[],
  entry: number,
  at: number,
): { readonly world: World; readonly fresh: readonly Alarm[] } {
  const sorted = [...raised].sort((a, b) => ALARM_CODES.indexOf(a.code) - ALARM_CODES.indexOf(b.code));
  let alarms: readonly AlarmNow[] = world.state.alarms;
  const fresh: Alarm[] = [];
  for (const { code, about, train } of sorted) {
    const standing = alarms.find((other) => sameAlarm(other, { code, about }));
    if (standing !== undefined) {
      alarms = alarms.map((other) => (other === standing ? { ...other, count: other.count + 1 } : other));
      continue;
    }
    const said = sentence(world, code, about);
    fresh.push(said);
    alarms = [...alarms, { ...said, train, entry, at, count: 1, seen: false }];
  }
  return { world: withState(world, { alarms }), fresh };
}
