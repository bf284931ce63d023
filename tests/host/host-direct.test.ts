/** The host without a transport. */
import { hostSuite } from '../support/host-suite.ts';
import { directHost, openedConsole } from '../support/open-host.ts';

hostSuite('direct', async () => directHost(openedConsole()));
