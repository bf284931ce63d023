/** The host without a transport. */
import { hostSuite, unknownCallSuite } from '../support/host-suite.ts';
import { directHost, openedConsole } from '../support/open-host.ts';

const open = async () => directHost(openedConsole());
hostSuite('direct', open);
unknownCallSuite('direct', open);
