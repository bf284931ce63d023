/** `cabward serve`: the console for a browser on this machine, until it is interrupted. */
import { fileURLToPath } from 'node:url';
import { startServer } from '../web/serve.ts';
import { type Answer, inputError } from './answer.ts';
import { readNumber } from './number-option.ts';
import type { Streams } from './streams.ts';
import { programVersion } from './version.ts';

const PORT = { least: 0, most: 65_535, whole: true, unit: 'a port (0 for any free one)' } as const;

/** The folder of the built page, from the source or from the bundle (every built file is one folder deep). */
export function pageFolder(): string {
  const here = import.meta.url;
  return fileURLToPath(new URL(here.endsWith('.ts') ? '../../dist/renderer/' : '../renderer/', here));
}

/** Resolves when the process is asked to end. */
function interrupted(): Promise<void> {
  return new Promise((resolve) => {
    for (const signal of ['SIGINT', 'SIGTERM', 'SIGHUP'] as const) process.once(signal, () => resolve());
  });
}

/** Serves the console; answers when it was ended. Exit status 1 where another one has the log. */
export async function serve(
  options: { readonly port?: string | undefined; readonly log?: string | undefined },
  { streams, json }: { readonly streams: Streams; readonly json: boolean },
): Promise<Answer> {
  const port = options.port === undefined ? undefined : readNumber('--port', options.port, PORT);
  if (port?.ok === false) return inputError(port.says);
  const started = await startServer({
    version: programVersion(),
    page: pageFolder(),
    port: port?.value,
    log: options.log,
    warn: (says) => streams.err(`${says}\n`),
  });
  if (started.kind === 'cannot') return inputError(started.says);
  if (started.kind === 'already-running')
    return { exit: 1, json: { alreadyRunning: true, address: started.address }, text: started.says };
  const { address, log, close } = started.server;
  streams.out(
    json
      ? `${JSON.stringify({ address, log })}\n`
      : `Cabward is open at ${address}\nThe address is good for one use. The log is ${log}. Ctrl+C ends it.\n`,
  );
  await interrupted();
  await close();
  return { exit: 0, json: undefined, text: '' };
}
