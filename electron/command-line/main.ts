/** Entry of the `cabward` program. */
import { runCabward } from './program.ts';
import { processStreams } from './streams.ts';

process.exitCode = await runCabward(process.argv.slice(2), processStreams());
