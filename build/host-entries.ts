/**
 * The programs that Node or Electron runs. Each is built to the same place below `dist/` as it has below `electron/`, and what
 * they share lies in `dist/parts/`: one folder deep too, so that `new URL('../host/planner-worker.js', import.meta.url)` and
 * `new URL('../renderer/', import.meta.url)` hold from every built file.
 */
import { root } from './fit-node.js';

const ENTRIES = [
  'command-line/main',
  'web/serve',
  'host/planner-worker',
  'host/log-worker',
  'desktop/main',
] as const;

/** Name below `dist/` → source file. */
export function hostEntries(): Record<string, string> {
  return Object.fromEntries(ENTRIES.map((name) => [name, `${root}electron/${name}.ts`]));
}

/** The folders below `dist/` that the build of the host owns and empties. */
export const HOST_FOLDERS = ['command-line', 'web', 'host', 'desktop', 'parts'] as const;
