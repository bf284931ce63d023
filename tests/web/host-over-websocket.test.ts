/** The host over the loopback server. */
import { hostSuite, unknownCallSuite } from '../support/host-suite.ts';
import { plannerSuite } from '../support/planner-suite.ts';
import { startedServer, webHost } from '../support/web-host.ts';

const open = async () => webHost(await startedServer());
hostSuite('websocket', open);
unknownCallSuite('websocket', open);
plannerSuite('websocket', open);
