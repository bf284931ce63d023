/** What every screen shares: the link, the user's settings, and the evening that is going on. One store, told by the host's pushes. */
import type { BatchItem } from '../../shared-model/session/batch.ts';
import {
  type Answer,
  type ReplyOf,
  type UserSettings,
  userSettings,
} from '../../shared-model/wire/contract.ts';
import type { ConsoleConnection, LinkState } from '../connection/console-connection.ts';
import { type FollowedEvening, foldInto, followEvening } from './followed-evening.ts';

export interface ConsoleState {
  readonly link: LinkState;
  /** Null until the host has answered once. */
  readonly hello: ReplyOf<'hello'> | null;
  readonly settings: UserSettings;
  /** The evening that goes on, or the last one that ended; null when there is none. */
  readonly evening: FollowedEvening | null;
  /** How an evening that goes on was found here: this page began anew, or the console did; null once something was done since. */
  readonly found: 'page' | 'console' | null;
  /** False until it is known whether there is an evening. */
  readonly eveningKnown: boolean;
  /** What went wrong when the host was greeted or the evening read, in words; null when nothing did. */
  readonly problem: string | null;
}

export interface ConsoleStore {
  readonly connection: ConsoleConnection;
  readonly get: () => ConsoleState;
  /** @returns a function that ends the listening */
  readonly subscribe: (listener: () => void) => () => void;
  /** Sends inputs of one act, whole or not at all. What the answer brings is shown before this resolves. */
  readonly send: (items: readonly BatchItem[]) => Promise<Answer<ReplyOf<'evening.send'>>>;
  /** The word that the evening goes on was read. */
  readonly foundSeen: () => void;
  readonly openEvening: (railroad: string, alone: boolean) => Promise<Answer<ReplyOf<'evening.open'>>>;
  readonly writeSettings: (part: Partial<UserSettings>) => Promise<Answer<UserSettings>>;
}

/** Whether something happened in it already, and more can. */
const goesOn = ({ state }: FollowedEvening): boolean => state.entries > 1 && state.phase !== 'ended';

const otherVersion = (own: string, now: string): string =>
  `The console was updated from ${own} to ${now}: load this page anew. Copy first what is typed and not sent.`;

/**
 * @param connection the way to the host
 * @param now this page's clock, in milliseconds
 */
export function consoleStore(connection: ConsoleConnection, now: () => number): ConsoleStore {
  let state: ConsoleState = {
    link: connection.link(),
    hello: null,
    settings: userSettings.parse({}),
    evening: null,
    found: null,
    eveningKnown: false,
    problem: null,
  };
  const listeners = new Set<() => void>();
  const change = (part: Partial<ConsoleState>) => {
    state = { ...state, ...part };
    for (const listener of listeners) listener();
  };

  const readEvening = async () => {
    const answer = await connection.call('evening.read', {});
    if (!answer.ok) return change({ problem: answer.problem.says, eveningKnown: true });
    change({
      evening: answer.value === null ? null : followEvening(answer.value, now()),
      eveningKnown: true,
    });
  };
  const takeEvents = (id: string, events: Parameters<typeof foldInto>[1]) => {
    const { evening } = state;
    const folded = evening?.id === id ? foldInto(evening, events) : null;
    if (folded === null) void readEvening();
    else if (folded !== evening) change({ evening: folded });
  };
  const greet = async () => {
    const hello = await connection.call('hello', {});
    if (!hello.ok) change({ problem: hello.problem.says });
    else {
      // This page was made by the version that greeted it first: it may not understand what another one tells.
      const own = state.hello?.version ?? hello.value.version;
      const isOther = own !== hello.value.version;
      change({
        hello: { ...hello.value, version: own },
        settings: hello.value.settings,
        problem: isOther ? otherVersion(own, hello.value.version) : null,
      });
      if (isOther) return;
    }
    await readEvening();
    const { evening } = state;
    if (evening !== null && goesOn(evening)) change({ found: evening.resumed ? 'console' : 'page' });
  };

  connection.onLink((link) => {
    change({ link });
    if (link === 'open') void greet();
  });
  connection.on('evening.events', ({ id, events }) => takeEvents(id, events));
  connection.on('evening.opened', () => void readEvening());
  connection.on('settings.changed', (settings) => change({ settings }));
  if (state.link === 'open') void greet();

  return {
    connection,
    get: () => state,
    subscribe(listener) {
      listeners.add(listener);
      return () => listeners.delete(listener);
    },
    async send(items) {
      const id = state.evening?.id;
      change({ found: null });
      const answer = await connection.call('evening.send', { items: [...items] });
      if (answer.ok && id !== undefined) {
        const { events, refused } = answer.value;
        takeEvents(id, refused === null ? events : [...events, refused]);
      }
      return answer;
    },
    foundSeen: () => change({ found: null }),
    async openEvening(railroad, alone) {
      const answer = await connection.call('evening.open', { railroad, alone });
      if (answer.ok) change({ evening: followEvening(answer.value, now()), found: null, eveningKnown: true });
      return answer;
    },
    async writeSettings(part) {
      const answer = await connection.call('settings.write', part);
      if (answer.ok) change({ settings: answer.value });
      return answer;
    },
  };
}
