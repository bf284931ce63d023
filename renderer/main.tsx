/** The start of the page: the typeface, the connection, the store, the frame of the screens. */
import '@fontsource/b612/400.css';
import '@fontsource/b612/700.css';
import { StrictMode } from 'react';
import { createRoot } from 'react-dom/client';
import { openConnection } from './connection/open-connection.ts';
import { consoleStore } from './console/console-store.ts';
import { ConsoleProvider } from './console/use-console.tsx';
import { Shell } from './shell/shell.tsx';
import './theme/base.css';

const root = document.getElementById('root');
if (root === null) throw new Error('the page has no element #root');
const store = consoleStore(openConnection(), () => performance.now());
createRoot(root).render(
  <StrictMode>
    <ConsoleProvider store={store}>
      <Shell />
    </ConsoleProvider>
  </StrictMode>,
);
