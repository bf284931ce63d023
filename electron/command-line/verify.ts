/** `cabward verify`: whether the log is what was written. */
import { openForReading } from '../host/log/open-log.ts';
import { type Verdict, verifyLog } from '../host/log/verify.ts';
import { type Answer, inputError } from './answer.ts';
import { logFile } from './read-log.ts';

function answerOf({ good, says }: Verdict): Answer {
  const head = good ? 'The log is what was written.' : 'The log is not what was written:';
  return { exit: good ? 0 : 1, json: { good, says }, text: [head, ...says].join('\n') };
}

/** Verifies a log; exit status 1 when it is not what was written, or too damaged to be read. */
export function verify({ log: named }: { readonly log?: string | undefined }): Answer {
  const opened = openForReading(logFile(named));
  if (!opened.ok) {
    const { code, says } = opened.problem;
    return code === 'damaged' ? answerOf({ good: false, says: [says] }) : inputError(says);
  }
  try {
    return answerOf(verifyLog(opened.log));
  } finally {
    opened.log.close();
  }
}
