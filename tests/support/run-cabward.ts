/** The `cabward` program run in this process: what it prints, and its exit status. */
import { fileURLToPath } from 'node:url';
import { runCabward } from '../../electron/command-line/program.ts';

export interface Ran {
  readonly status: number;
  readonly out: string;
  readonly err: string;
}

export async function cabward(...args: readonly string[]): Promise<Ran> {
  let [out, err] = ['', ''];
  const status = await runCabward(args, {
    out: (text) => {
      out += text;
    },
    err: (text) => {
      err += text;
    },
  });
  return { status, out, err };
}

/** What `--json` prints: one document and nothing else. */
export async function cabwardJson<Value>(...args: readonly string[]): Promise<Value> {
  const { out, err } = await cabward(...args, '--json');
  if (err !== '') throw new Error(err);
  return JSON.parse(out) as Value;
}

/** A file of the tests' support. */
export const supportFile = (name: string): string => fileURLToPath(new URL(name, import.meta.url));
