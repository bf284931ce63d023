/** The host: every call of the contract, parsed at this border and answered as data, and the pushes. Who carries them is not its business. */
import { firstMalformed, unkeepable } from '../../shared-model/malformed.ts';
import { whyNotRunnable } from '../../shared-model/railroad/runnable.ts';
import type { LookAhead } from '../../shared-model/session/world.ts';
import {
  type Answer,
  CALLS,
  type CallName,
  type ReplyOf,
  type UserSettings,
} from '../../shared-model/wire/contract.ts';
import type { z } from '../../shared-model/zod.ts';
import { bad, good } from './answers.ts';
import { backupCalls } from './backup-calls.ts';
import { carriedNow } from './carried-over.ts';
import { carryingCalls } from './carrying/carrying-calls.ts';
import { type Clock, rfc3339 } from './clock.ts';
import { eveningCalls } from './evening-calls.ts';
import { makeLiveEvening } from './live-evening.ts';
import { readDocument } from './log/documents.ts';
import { dropKept, keep, keptOf, writeSetting } from './log/kept.ts';
import type { StartLogWork } from './log-thread.ts';
import { plannerJobs, type StartThread } from './planner-jobs.ts';
import type { Push, Pushes } from './pushes.ts';
import { findRailroad, railroadCalls, wholeDocument } from './railroad-calls.ts';
import type { Storage } from './storage.ts';
import { userSettingsIn } from './user-settings.ts';

export interface ConsoleHostOptions {
  readonly storage: Storage;
  readonly pushes: Pushes;
  readonly clock: Clock;
  /** A fresh id that no other evening anywhere has. */
  readonly uid: () => string;
  readonly version: string;
  readonly runtime: 'electron' | 'node';
  readonly startPlanner: StartThread;
  readonly startLogWork: StartLogWork;
  /** Whether a move locks the railroad; without it no move is refused for that. */
  readonly lookAhead?: LookAhead | undefined;
  /** Told of what goes wrong where no call waits for the answer. */
  readonly warn: (says: string) => void;
}

export interface ConsoleHost {
  /** Answers a call; never throws, never rejects. `request` may be anything. */
  call(name: string, request: unknown): Promise<Answer<unknown>>;
  subscribe(listener: (push: Push) => void): () => void;
  /** Ends long work, and waits for a backup that is being made. The log stays open: who opened it closes it. */
  close(): Promise<void>;
}

type Handlers = {
  readonly [Name in CallName]: (
    request: z.output<(typeof CALLS)[Name]['request']>,
  ) => Answer<ReplyOf<Name>> | Promise<Answer<ReplyOf<Name>>>;
};

const isCall = (name: string): name is CallName => Object.hasOwn(CALLS, name);

export function makeConsoleHost(options: ConsoleHostOptions): ConsoleHost {
  const { storage, clock, pushes, warn } = options;
  const backups = backupCalls({ storage, clock, pushes, startLogWork: options.startLogWork });

  const live = makeLiveEvening({
    storage,
    clock,
    pushes,
    uid: options.uid,
    lookAhead: options.lookAhead,
    ended: () => void backups.backUpNow().then((made) => (made.ok ? undefined : warn(made.problem.says))),
  });
  const jobs = plannerJobs(options.startPlanner, pushes);
  const carrying = carryingCalls({ storage, clock, pushes, lookAhead: options.lookAhead });
  const settings = () => userSettingsIn(storage.log);

  const openEvening: Handlers['evening.open'] = ({ railroad, alone }) => {
    const row = findRailroad(storage, railroad);
    if (row === null)
      return bad('not-found', `There is no railroad ${railroad} in the library.`, '$.railroad');
    if (row.hash === null) return bad('refused', 'This railroad is only a draft yet; publish it first.');
    const document = readDocument(storage.log, row.hash);
    if (document.system !== 'three-rail-ac')
      return bad(
        'refused',
        'The live evening is for three-rail AC alone: on two rails nobody but the operator knows the polarity.',
      );
    const error = whyNotRunnable(document);
    if (error !== null) return bad('refused', `This railroad cannot be run: ${error.says}`);
    const carriedOver = carriedNow(storage.log, clock, row.id, document);
    return live.open({ railroad: row.id, document, carriedOver, alone });
  };

  const handlers: Handlers = {
    hello: () =>
      good({
        version: options.version,
        runtime: options.runtime,
        evening: live.going(),
        settings: settings(),
        log: storage.state(),
      }),
    'settings.write': (part) => {
      const next = { ...settings(), ...part } as UserSettings;
      const written = storage.write((log) => writeSetting(log, 'user', next));
      if (!written.ok) return written;
      pushes.tell('settings.changed', next);
      return good(next);
    },
    ...railroadCalls({ storage, clock, pushes }),
    'evening.open': openEvening,
    'evening.read': () => good(live.read()),
    'evening.send': ({ items }) => {
      const sent = live.send(items);
      return sent.ok ? good({ events: [...sent.value.events], refused: sent.value.refused }) : sent;
    },
    ...eveningCalls({ storage, clock, pushes, going: live.going, carrying }),
    ...backups.calls,
    'keep.write': ({ kind, id, value }) => {
      if (value === undefined) return bad('bad-input', 'expected a value, but it is missing', '$.value');
      const written = storage.write((log) => keep(log, kind, id, value, rfc3339(clock)));
      return written.ok ? good({}) : written;
    },
    'keep.list': ({ kind }) => good([...keptOf(storage.log, kind)]),
    'keep.remove': ({ kind, id }) => {
      const written = storage.write((log) => dropKept(log, kind, id));
      return written.ok ? good({}) : written;
    },
    'phase.checks': ({ railroad }) => {
      const row = findRailroad(storage, railroad);
      if (row === null)
        return bad('not-found', `There is no railroad ${railroad} in the library.`, '$.railroad');
      const document = wholeDocument(storage, row);
      return good(document === null ? [] : [...carriedNow(storage.log, clock, row.id, document).checks]);
    },
    'plan.start': (job) => jobs.start(job),
    'plan.cancel': ({ job }) => jobs.cancel(job),
  };

  const answer = async <Name extends CallName>(name: Name, request: unknown): Promise<Answer<unknown>> => {
    const parsed = CALLS[name].request.safeParse(request);
    if (!parsed.success) {
      const { path, says } = firstMalformed(parsed.error);
      return bad('bad-input', says, path);
    }
    const handle = handlers[name] as (request: unknown) => Answer<unknown> | Promise<Answer<unknown>>;
    return await handle(parsed.data);
  };

  return {
    call: async (name, request) => {
      if (!isCall(name))
        return bad('bad-input', `expected a call of the contract, not ${JSON.stringify(name)}`);
      const odd = unkeepable(request);
      if (odd !== null) return bad('bad-input', odd.says, odd.path);
      try {
        return await answer(name, request);
      } catch (error) {
        const says = error instanceof Error ? error.message : String(error);
        warn(`${name}: ${says}`);
        return bad('fault', `The console could not do that: ${says}`);
      }
    },
    subscribe: pushes.subscribe,
    close: async () => {
      jobs.stopAll();
      carrying.close();
      backups.giveUp();
      await backups.settled();
    },
  };
}
