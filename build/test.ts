/** `npm test`: unit, property, proof and browser tests. */
import { runAllTests } from './all-tests.ts';

process.exitCode = (await runAllTests()) ? 0 : 1;
