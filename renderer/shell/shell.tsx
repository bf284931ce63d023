/** The frame round every screen: the way from one to another, the word when the host is gone, and the screen itself. */
import { Suspense } from 'react';
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
  const offered =
    current.alone === true ? [SCREENS[0], current] : SCREENS.filter(({ alone }) => alone !== true);
  return (
    <div className="shell">
      <header className="shell-head">
        <nav className="shell-screens" aria-label="Screens">
          {offered.map(({ path, name }) => (
            <a
              key={path}
              href={path === 'help' ? helpAddress(current.path) : `#/${path}`}
              aria-current={path === current.path ? 'page' : undefined}
            >
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
