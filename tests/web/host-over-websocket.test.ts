/** The host over the loopback server. */
import { hostSuite } from '../support/host-suite.ts';
import { startedServer, webHost } from '../support/web-host.ts';

hostSuite('websocket', async () => webHost(await startedServer()));
