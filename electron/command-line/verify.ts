/** `cabward verify`: whether the log is what was written. */
import { verifyLog } from '../host/log/verify.ts';
import type { Answer } from './answer.ts';
import { withLog } from './read-log.ts';

/** Verifies a log; exit status 1 when it is not what was written. */
export function verify({ log: named }: { readonly log?: string | undefined }): Answer {
  return withLog(named, (log) => {
    const { good, says } = verifyLog(log);
    const head = good ? 'The log is what was written.' : 'The log is not what was written:';
    return { exit: good ? 0 : 1, json: { good, says }, text: [head, ...says].join('\n') };
  });
}
