/** Where this machine keeps the console's data. */
import { homedir } from 'node:os';
import { join, resolve } from 'node:path';

/** Name of the log inside the data folder. */
const LOG_NAME = 'evenings.cabward';

/**
 * The data folder: `CABWARD_DATA` where that is set, else what the platform is used to.
 *
 * @param platform as `process.platform` gives it
 * @param environment the process's environment
 */
export function dataFolder(
  platform: NodeJS.Platform = process.platform,
  environment: Readonly<Record<string, string | undefined>> = process.env,
): string {
  const own = environment.CABWARD_DATA;
  if (own !== undefined && own !== '') return resolve(own);
  const home = homedir();
  if (platform === 'darwin') return join(home, 'Library', 'Application Support', 'Cabward');
  if (platform === 'win32') return join(environment.APPDATA ?? join(home, 'AppData', 'Roaming'), 'Cabward');
  return join(environment.XDG_DATA_HOME ?? join(home, '.local', 'share'), 'cabward');
}

/** The log that is used where none is named. */
export function defaultLogFile(folder: string = dataFolder()): string {
  return join(folder, LOG_NAME);
}
