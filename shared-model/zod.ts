/**
 * The one door to the schema library.
 *
 * Zod 4 probes `new Function`, which a content security policy without unsafe-eval reports as an error;
 * `jitless` has to be set before the first parse, so everybody imports `z` from here.
 */
import { config, z } from 'zod';

config({ jitless: true });

export { z };
