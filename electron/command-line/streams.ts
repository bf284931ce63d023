/** Where the program's words go; tests stand in their own. */
export interface Streams {
  /** Standard output; the text is whole lines. */
  out(text: string): void;
  /** Standard error. */
  err(text: string): void;
}

/** The process's own; a reader that went away (`| head`) is no error. */
export function processStreams(): Streams {
  process.stdout.on('error', (error: NodeJS.ErrnoException) => {
    if (error.code !== 'EPIPE') throw error;
  });
  return {
    out: (text) => void process.stdout.write(text),
    err: (text) => void process.stderr.write(text),
  };
}
