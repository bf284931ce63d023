/** Opens the console on a log: the lock, the log, the demo railroad at the very first start, and the host over it all. */

import { randomUUID } from 'node:crypto';
import { demoRailroad } from '../../shared-model/demo/railroad.ts';
import { lookAhead } from '../../shared-model/planning/look-ahead.ts';
import type { RailroadDocument } from '../../shared-model/railroad/document.ts';
import type { LookAhead } from '../../shared-model/session/world.ts';
import { type Clock, rfc3339, systemClock } from './clock.ts';
import { type ConsoleHost, makeConsoleHost } from './console-host.ts';
import { readSetting, writeSetting } from './log/kept.ts';
import { addRailroad, addVersion } from './log/library.ts';
import { logThreadsFrom, type StartLogWork } from './log-thread.ts';
import { type AlreadyRunning, type CannotOpen, type OpenStorage, openStorage } from './open-storage.ts';
import { type StartThread, threadsFrom } from './planner-jobs.ts';
import { makePushes, type Pushes } from './pushes.ts';
import type { Storage } from './storage.ts';

export interface OpenConsoleOptions {
  readonly version: string;
  readonly runtime: 'electron' | 'node';
  /** The log; the default one of the data folder where none is named. */
  readonly log?: string | undefined;
  readonly clock?: Clock | undefined;
  readonly uid?: (() => string) | undefined;
  readonly startPlanner?: StartThread | undefined;
  readonly startLogWork?: StartLogWork | undefined;
  readonly lookAhead?: LookAhead | undefined;
  readonly warn?: ((says: string) => void) | undefined;
}

export interface OpenConsole {
  readonly host: ConsoleHost;
  /** Path of the log. */
  readonly log: string;
  /** Tells a second start where this one can be reached. */
  announce(address: string | null): void;
  /** Ends work, closes the log and gives up its lock. */
  close(): Promise<void>;
}

export type ConsoleOpened =
  | { readonly kind: 'open'; readonly console: OpenConsole }
  | AlreadyRunning
  | CannotOpen;

/** A worker's file: the source when the source runs, its bundle when the bundle does (every built file is one folder deep). */
export function workerFile(name: 'planner-worker' | 'log-worker'): URL {
  const here = import.meta.url;
  return new URL(`../host/${name}.${here.endsWith('.ts') ? 'ts' : 'js'}`, here);
}

/** Puts a railroad into the library at the very first start; one that was removed since does not come back. */
function installDemo(storage: Storage, document: RailroadDocument, at: string): void {
  if (!storage.state().writable || readSetting(storage.log, 'demo-installed') === true) return;
  storage.write((log) => {
    addVersion(log, addRailroad(log, document.name, true, at), document, 'comes with the console', at);
    writeSetting(log, 'demo-installed', true);
  });
}

function consoleOver(
  opened: OpenStorage,
  pushes: Pushes,
  clock: Clock,
  options: OpenConsoleOptions,
): OpenConsole {
  const { storage, file, announce } = opened;
  installDemo(storage, demoRailroad, rfc3339(clock));
  const host = makeConsoleHost({
    storage,
    pushes,
    clock,
    uid: options.uid ?? randomUUID,
    version: options.version,
    runtime: options.runtime,
    lookAhead: options.lookAhead ?? lookAhead,
    startLogWork: options.startLogWork ?? logThreadsFrom(workerFile('log-worker')),
    startPlanner: options.startPlanner ?? threadsFrom(workerFile('planner-worker')),
    warn: options.warn ?? ((words) => console.error(words)),
  });
  return {
    host,
    log: file,
    announce,
    close: async () => {
      await host.close();
      opened.close();
    },
  };
}

/** Opens the console on a log, if no other process has it. */
export function openConsole(options: OpenConsoleOptions): ConsoleOpened {
  const clock = options.clock ?? systemClock;
  const pushes = makePushes();
  const storage = openStorage(options.log, rfc3339(clock), (state) => pushes.tell('log.state', state));
  if (storage.kind !== 'open') return storage;
  try {
    return { kind: 'open', console: consoleOver(storage.opened, pushes, clock, options) };
  } catch (error) {
    storage.opened.close();
    throw error;
  }
}
