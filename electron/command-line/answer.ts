/** What a subcommand answers: an exit status, a JSON document and the same in words. Printing is main's business. */

export interface Answer {
  /** 0 done; 1 done and the answer is bad; 2 the input or the call is wrong. */
  readonly exit: 0 | 1 | 2;
  /** The one JSON document of `--json`; not printed when `exit` is 2. */
  readonly json: unknown;
  /** For a person, without a final line break; when `exit` is 2 it is one line and goes to standard error. */
  readonly text: string;
}

/** The answer to a wrong input or call: one line that says what, where and what was expected. */
export function inputError(line: string): Answer {
  return { exit: 2, json: null, text: line.replace(/\s*[\r\n]+\s*/g, ' ') };
}
