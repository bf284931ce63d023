/** The host over Electron's IPC, as the page's preload reaches it: every value is cloned on its way. */
import type { Push } from '../../electron/host/pushes.ts';
import type { Answer } from '../../shared-model/wire/contract.ts';
import { type HostUnderTest, hostSuite } from '../support/host-suite.ts';
import { handled } from './electron-double.ts';
import { freshMachine, startedDesktop } from './support.ts';

/** What Electron tells of a call from the console's own page. */
function ownPage() {
  const frame = { url: 'app://console/index.html', parent: null };
  return { senderFrame: frame, sender: { mainFrame: frame } };
}

async function ipcHost(): Promise<HostUnderTest> {
  freshMachine();
  const window = await startedDesktop();
  return {
    call: async (name, request) => {
      const handler = handled.get(`cabward-call:${name}`);
      if (handler === undefined) throw new Error(`no channel for ${name}`);
      return structuredClone(await handler(ownPage(), structuredClone(request))) as Answer<unknown>;
    },
    get pushes() {
      return window.sent.map(
        ({ channel, value }) =>
          ({ push: channel.replace('cabward-push:', ''), value: structuredClone(value) }) as Push,
      );
    },
  };
}

hostSuite('ipc', ipcHost);
