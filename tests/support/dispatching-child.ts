/** A process that dispatches as fast as it can on a log, and says what was answered, until it is killed: `node … LOG`. */
import { openConsole } from '../../electron/host/open-console.ts';
import passingSiding from './passing-siding.railroad.json' with { type: 'json' };

const log = process.argv[2] ?? '';
const opened = openConsole({ version: '0.0.0', runtime: 'node', log });
if (opened.kind !== 'open') throw new Error(opened.kind);
const { host } = opened.console;

async function ask(name: string, request: unknown): Promise<Record<string, unknown>> {
  const answer = await host.call(name, request);
  if (!answer.ok) throw new Error(answer.problem.says);
  return answer.value as Record<string, unknown>;
}

const { evening } = (await ask('hello', {})) as { evening: unknown };
if (evening === null) {
  const text = JSON.stringify(passingSiding);
  const { id } = await ask('railroads.import', { text, name: 'siding' });
  await ask('evening.open', { railroad: id, alone: false });
}

for (let round = 0; ; round += 1) {
  const items = [
    { input: { do: 'note', text: `round ${round}` } },
    { input: { do: 'selector-stands-at', selector: 'K1', position: round % 2 === 0 ? '1' : 'off' } },
    { input: { do: 'note', text: 'and so on' } },
  ];
  const { events } = (await ask('evening.send', { items })) as { events: { entry: number }[] };
  process.stdout.write(`${events.at(-1)?.entry}\n`);
}
