/** Entry of the console in Electron. */
import { app, dialog } from 'electron';
import { startDesktop } from './desktop.ts';

// Not awaited: Electron is ready only after this file has run to its end.
startDesktop().catch((error: unknown) => {
  dialog.showErrorBox('Cabward could not start', error instanceof Error ? error.message : String(error));
  app.exit(1);
});
