/** The store in React: a provider, and hooks that render a part again only when what they selected has changed. */
import { createContext, type ReactNode, useContext, useEffect, useState, useSyncExternalStore } from 'react';
import type { ConsoleState, ConsoleStore } from './console-store.ts';
import { type FollowedEvening, sessionSeconds } from './followed-evening.ts';

const StoreContext = createContext<ConsoleStore | null>(null);

export function ConsoleProvider({
  store,
  children,
}: {
  readonly store: ConsoleStore;
  readonly children: ReactNode;
}) {
  return <StoreContext value={store}>{children}</StoreContext>;
}

/** The store itself, for what is done: `send`, `openEvening`, `writeSettings`, `connection.call`. */
export function useConsoleStore(): ConsoleStore {
  const store = useContext(StoreContext);
  if (store === null) throw new Error('a screen is drawn outside its ConsoleProvider');
  return store;
}

/**
 * A part of what every screen shares.
 *
 * @param select must give the same object for the same state (a field of it, not a fresh list)
 */
export function useConsole<Part>(select: (state: ConsoleState) => Part): Part {
  const store = useConsoleStore();
  return useSyncExternalStore(store.subscribe, () => select(store.get()));
}

/** Seconds since the session was opened, by the host's clock, anew each second; 0 without an evening. */
export function useSessionSeconds(evening: FollowedEvening | null): number {
  const read = () => (evening === null ? 0 : Math.floor(sessionSeconds(evening, performance.now())));
  const [, setSeconds] = useState(read);
  useEffect(() => {
    if (evening === null) return;
    const timer = window.setInterval(
      () => setSeconds(Math.floor(sessionSeconds(evening, performance.now()))),
      1000,
    );
    return () => window.clearInterval(timer);
  }, [evening]);
  return read();
}
