import { describe, expect, it } from 'vitest';
import type { ConsoleConnection } from '../../../renderer/connection/console-connection.ts';
import { consoleStore } from '../../../renderer/console/console-store.ts';
import { foldInto, followEvening, sessionSeconds } from '../../../renderer/console/followed-evening.ts';
import type { ThrottleId } from '../../../shared-model/ids.ts';
import { newEvening, take } from '../../../shared-model/session/evening.ts';
import type { SessionEvent } from '../../../shared-model/session/event.ts';
import { type LiveEvening, userSettings } from '../../../shared-model/wire/contract.ts';
import { clubRailroad } from '../support/club-railroad.ts';

const railroad = clubRailroad();

/** The first events of an evening, by the real rules. */
function firstEvents(): readonly SessionEvent[] {
  let evening = newEvening(railroad);
  const inputs = [
    { do: 'open-session' as const },
    { do: 'assign-cab' as const, cab: '1' as ThrottleId, person: 'Avery' },
    { do: 'assign-cab' as const, cab: '2' as ThrottleId, person: 'Blake' },
  ];
  return inputs.map((input, i) => {
    const taken = take(evening, { at: i, input });
    evening = taken.evening;
    return taken.event;
  });
}

const events = firstEvents();
const live: LiveEvening = {
  id: 'e1',
  openedAt: '2026-11-25T20:00:00Z',
  now: 100,
  document: railroad.document,
  state: newEvening(railroad).state,
  recent: [],
  heldOn: null,
  resumed: false,
};
const personOf = (evening: ReturnType<typeof followEvening> | null, cab: string) =>
  evening?.state.cabs[cab as ThrottleId]?.person;

describe('the followed evening', () => {
  it('folds events as they come', () => {
    const after = foldInto(followEvening(live, 0), events);
    expect(after?.state.phase).toBe('making-up');
    expect(personOf(after, '2')).toBe('Blake');
    expect(after?.recent).toEqual(events);
  });

  it('passes over events that it has already', () => {
    const after = foldInto(followEvening(live, 0), events);
    expect(after && foldInto(after, events)).toBe(after);
    expect(after && foldInto(after, events.slice(1))).toBe(after);
  });

  it('says that it lost the thread when one is missing', () => {
    expect(foldInto(followEvening(live, 0), events.slice(1))).toBeNull();
  });

  it("tells the host's seconds by this page's clock", () => {
    expect(sessionSeconds(followEvening(live, 5000), 7500)).toBe(102.5);
  });
});

/** A connection whose host answers from a table, and a way to push. */
function connectionDouble() {
  const called: string[] = [];
  const listeners = new Map<string, (value: never) => void>();
  let current: LiveEvening | null = live;
  let version = '1';
  let linkListener: (link: 'connecting' | 'open' | 'lost') => void = () => undefined;
  const replies: Record<string, (request: never) => unknown> = {
    hello: () => ({
      version,
      runtime: 'node',
      evening: null,
      settings: userSettings.parse({ theme: 'light' }),
    }),
    'evening.read': () => current,
    'evening.send': () => ({ events: events.slice(0, 2), refused: null }),
    'settings.write': (part: object) => userSettings.parse(part),
  };
  const connection = {
    link: () => 'open',
    onLink: (listener: typeof linkListener) => {
      linkListener = listener;
      return () => undefined;
    },
    call: async (name: string, request: never) => {
      called.push(name);
      return { ok: true, value: replies[name]?.(request) };
    },
    on: (name: string, listener: (value: never) => void) => {
      listeners.set(name, listener);
      return () => undefined;
    },
  } as unknown as ConsoleConnection;
  return {
    connection,
    called,
    push: (name: string, value: unknown) => listeners.get(name)?.(value as never),
    link: (link: 'open' | 'lost') => linkListener(link),
    update: () => {
      version = '2';
    },
    setEvening: (evening: LiveEvening | null) => {
      current = evening;
    },
  };
}

const settled = () => new Promise((resolve) => setTimeout(resolve, 0));

describe('the store', () => {
  it('greets the host, and takes over its settings and its evening', async () => {
    const { connection } = connectionDouble();
    const store = consoleStore(connection, () => 0);
    expect(store.get().eveningKnown).toBe(false);
    await settled();
    expect(store.get()).toMatchObject({
      eveningKnown: true,
      settings: { theme: 'light' },
      evening: { id: 'e1' },
    });
  });

  it('folds what is pushed, and tells its listeners once', async () => {
    const { connection, push } = connectionDouble();
    const store = consoleStore(connection, () => 0);
    await settled();
    let told = 0;
    store.subscribe(() => {
      told += 1;
    });
    push('evening.events', { id: 'e1', events });
    expect(personOf(store.get().evening, '1')).toBe('Avery');
    expect(told).toBe(1);
  });

  it('shows what a sending did before it answers, and does not fold it twice when the push comes', async () => {
    const { connection, push } = connectionDouble();
    const store = consoleStore(connection, () => 0);
    await settled();
    await store.send([{ input: { do: 'open-session' } }]);
    expect(personOf(store.get().evening, '1')).toBe('Avery');
    const before = store.get();
    push('evening.events', { id: 'e1', events: events.slice(0, 2) });
    expect(store.get()).toBe(before);
  });

  it('reads the evening anew when an event is missing, when another was opened, and when the link is back', async () => {
    const { connection, called, push, link } = connectionDouble();
    consoleStore(connection, () => 0);
    await settled();
    const reads = () => called.filter((name) => name === 'evening.read').length;
    push('evening.events', { id: 'e1', events: events.slice(1) });
    await settled();
    expect(reads()).toBe(2);
    push('evening.opened', { id: 'e2' });
    await settled();
    expect(reads()).toBe(3);
    link('lost');
    link('open');
    await settled();
    expect(reads()).toBe(4);
  });

  it('keeps the last that was known while the link is lost', async () => {
    const { connection, link } = connectionDouble();
    const store = consoleStore(connection, () => 0);
    await settled();
    link('lost');
    expect(store.get()).toMatchObject({ link: 'lost', evening: { id: 'e1' } });
  });

  it('asks to be loaded anew, and reads nothing, when another version of the console answers', async () => {
    const { connection, called, link, update } = connectionDouble();
    const store = consoleStore(connection, () => 0);
    await settled();
    const reads = called.filter((name) => name === 'evening.read').length;
    update();
    for (const state of ['lost', 'open', 'lost', 'open'] as const) link(state);
    await settled();
    expect(store.get().problem).toBe(
      'The console was updated from 1 to 2: load this page anew. Copy first what is typed and not sent.',
    );
    expect(called.filter((name) => name === 'evening.read')).toHaveLength(reads);
  });

  it('says what the host answered when it could not be greeted', async () => {
    const { connection } = connectionDouble();
    const says = 'The log is from a newer program.';
    const refusing = { ...connection, call: async () => ({ ok: false, problem: { kind: 'fault', says } }) };
    const store = consoleStore(refusing as unknown as ConsoleConnection, () => 0);
    await settled();
    expect(store.get()).toMatchObject({ problem: says, eveningKnown: true, evening: null });
  });

  it('knows when there is no evening', async () => {
    const { connection, setEvening } = connectionDouble();
    setEvening(null);
    const store = consoleStore(connection, () => 0);
    await settled();
    expect(store.get()).toMatchObject({ evening: null, eveningKnown: true });
  });
});
