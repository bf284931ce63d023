/** The frame round every screen: the way from one to another, the word when the host is gone, and the screen itself. */
import { Suspense, useRef } from 'react';
import { useConsole } from '../console/use-console.tsx';
import { ErrorBoundary } from '../parts/error-boundary.tsx';
import { helpAddress } from './help-address.ts';
import { LinkNotice } from './link-notice.tsx';
import { SCREENS, screenAt } from './screens.ts';
import { useHash } from './use-hash.ts';
import { useLook } from './use-look.ts';
import './shell.css';

export function Shell() {
  useLook();
  const hash = useHash();
  const known = useConsole((state) => state.eveningKnown);
  const current = screenAt(hash);
  const left = useRef(new Map<string, string>());
  if (current.kept === true) left.current.set(current.path, hash);
  const wayTo = (path: string): string => {
    if (path === 'help') return helpAddress(current.path);
    return (path === current.path ? undefined : left.current.get(path)) ?? `#/${path}`;
  };
  const offered =
    current.alone === true ? [SCREENS[0], current] : SCREENS.filter(({ alone }) => alone !== true);
  return (
    <div className="shell">
      <header className="shell-head">
        <nav className="shell-screens" aria-label="Screens">
          {offered.map(({ path, name }) => (
            <a key={path} href={wayTo(path)} aria-current={path === current.path ? 'page' : undefined}>
              {name}
            </a>
          ))}
        </nav>
        <LinkNotice />
      </header>
      <main className="shell-screen">
        <h1 className="unseen">{current.name}</h1>
        {known ? (
          <ErrorBoundary key={current.path} where={current.name}>
            <Suspense fallback={null}>
              <current.Screen />
            </Suspense>
          </ErrorBoundary>
        ) : null}
      </main>
    </div>
  );
}
