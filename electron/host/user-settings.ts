/** What the user set, as the log keeps it. */
import { type UserSettings, userSettings } from '../../shared-model/wire/contract.ts';
import { readSetting } from './log/kept.ts';
import type { ReadableLog } from './log/log.ts';

/** The settings of a log; what is stored and no setting any more, or wrong, is passed over. */
export function userSettingsIn(log: ReadableLog): UserSettings {
  const stored = readSetting(log, 'user');
  const given = typeof stored === 'object' && stored !== null ? stored : {};
  const sound = Object.entries(given).filter(
    ([name, value]) => userSettings.safeParse({ [name]: value }).success,
  );
  return userSettings.parse(Object.fromEntries(sound));
}
