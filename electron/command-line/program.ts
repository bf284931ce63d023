/** The `cabward` program: its subcommands, their options, and what is printed. Each subcommand is loaded when it is called. */
import { Command, CommanderError, Option } from 'commander';
import { type Answer, inputError } from './answer.ts';
import type { Streams } from './streams.ts';
import { programVersion } from './version.ts';

type Options = Readonly<Record<string, string | undefined>>;
/** What a subcommand may print to while it runs, and whether JSON was asked for. */
interface Call {
  readonly streams: Streams;
  readonly json: boolean;
}
/** Options whose flag ends in `...>` and that may be repeated, each with all its values. */
type Repeated = Readonly<Record<string, readonly string[] | undefined>>;
/** What a subcommand does with its arguments and its options as they were typed. */
type Act = (
  args: readonly string[],
  options: Options,
  call: Call,
  repeated: Repeated,
) => Answer | Promise<Answer>;

interface Subcommand {
  /** Name and arguments, as in the help: "check <railroad>". */
  readonly usage: string;
  readonly says: string;
  /** Flags with what they mean. */
  readonly options?: readonly (readonly [flags: string, says: string])[];
  readonly act: Act;
}

const LOG: readonly [string, string] = ['--log <file>', 'another log than the one in the data folder'];

const first = (args: readonly string[]): string => args[0] ?? '';
const second = (args: readonly string[]): string => args[1] ?? '';

const SUBCOMMANDS: readonly Subcommand[] = [
  {
    usage: 'check <railroad>',
    says: 'the audit of a railroad file, and how far each block reaches',
    act: async (args) => (await import('./check.ts')).check(first(args)),
  },
  {
    usage: 'route <railroad>',
    says: 'the ways of a train to a block, and what they need set',
    options: [
      ['--train-at <edge:toward>', 'where its head is, at that end of the edge'],
      ['--to <block>', 'where to'],
      ['--cab <throttle>', 'say how the selectors have to stand, and what would refuse the way to it'],
      ['--avoid <blocks>', 'not to be entered, parted by commas'],
      ['--reversals <number>', 'how often it may change its facing (0)'],
      ['--alternatives <number>', 'how many ways, the best first (1)'],
      ['--train-length <mm>', 'so much has to be clear of a turnout before a reversal (0)'],
    ],
    act: async (args, options) => (await import('./route.ts')).route(first(args), options),
  },
  {
    usage: 'phase',
    says: 'the verdict of a phase check between two supplies',
    options: [
      ['--volts-a <volts>', 'reading of the one supply'],
      ['--volts-b <volts>', 'reading of the other'],
      ['--volts-across <volts>', 'reading between the two hots'],
      ['--tolerance <percent>', 'of the meter (2)'],
      ['--check <a:b:volts-a:volts-b:volts-across...>', 'one of several checks to combine, may be repeated'],
    ],
    act: async (_args, options, _call, { check }) =>
      (await import('./phase.ts')).phase({ ...options, check }),
  },
  {
    usage: 'wire',
    says: 'resistance, drop and short of a feeder, out and back',
    options: [
      ['--awg <gauge>', 'American Wire Gauge'],
      ['--run <mm>', 'length one way, in millimetres'],
      ['--amps <amps>', 'current'],
      ['--volts <volts>', 'volts at the supply'],
      ['--breaker <amps>', 'rating of the breaker'],
      ['--celsius <degrees>', 'temperature of the wire (20)'],
    ],
    act: async (_args, options) => (await import('./wire.ts')).wire(options),
  },
  {
    usage: 'rehearse <railroad> <script>',
    says: 'run a script of orders and observations, and tell what came of each and what holds after the last',
    act: async (args) => (await import('./rehearse.ts')).rehearse(first(args), second(args)),
  },
  {
    usage: 'safe <railroad> <situation>',
    says: 'whether every train can still get where it is to end up, with an order that shows it',
    act: async (args) => (await import('./safe.ts')).safe(first(args), second(args)),
  },
  {
    usage: 'plan <railroad> <situation>',
    says: 'moves and throws that bring every train there without a conflict',
    options: [
      ['--throw-seconds <seconds>', 'one throw of the hands (3)'],
      ['--margin <seconds>', 'between a throw and the head that needs it, a tail and what comes next (2)'],
      ['--throws-per-minute <number>', 'most throws that begin in any minute (12)'],
      ['--talk-seconds <seconds>', 'words before each move (0)'],
      ['--start-seconds <seconds>', 'lost at each start from a stand (0)'],
      ['--limit <seconds>', 'how long to look for a better plan (5)'],
    ],
    act: async (args, options) => (await import('./plan.ts')).plan(first(args), second(args), options),
  },
  {
    usage: 'capacity <railroad>',
    says: 'how many trains can keep moving, what stops one more, and what to build next',
    options: [
      ['--limit <seconds>', 'how long to look (10)'],
      ['--seed <number>', 'of the draws (1)'],
    ],
    act: async (args, options) => (await import('./capacity.ts')).capacity(first(args), options),
  },
  {
    usage: 'demo',
    says: 'run an invented evening on the demo railroad into a log, and print its train sheet',
    options: [['--seed <number>', 'which evening'], LOG],
    act: async (_args, options) => (await import('./demo.ts')).demo(options),
  },
  {
    usage: 'sessions',
    says: 'the evenings in the log',
    options: [LOG],
    act: async (_args, options) => (await import('./sessions.ts')).sessions(options),
  },
  {
    usage: 'report <session>',
    says: 'who did what in an evening',
    options: [['--format <format>', 'text, csv, html or json (text)'], LOG],
    act: async (args, options) => (await import('./report.ts')).report(first(args), options),
  },
  {
    usage: 'replay <session>',
    says: 'the state of an evening at a moment',
    options: [['--at <time>', 'seconds, m:ss or h:mm:ss since it was opened (its end)'], LOG],
    act: async (args, options) => (await import('./replay.ts')).replay(first(args), options),
  },
  {
    usage: 'verify',
    says: 'whether the log is what was written: the chain, the fold, SQLite’s own check',
    options: [LOG],
    act: async (_args, options) => (await import('./verify.ts')).verify(options),
  },
  {
    usage: 'serve',
    says: 'the console for a browser on this machine',
    options: [['--port <port>', 'on 127.0.0.1'], LOG],
    act: async (_args, options, call) => (await import('./serve.ts')).serve(options, call),
  },
];

/** Prints an answer as it was asked for; returns the exit status. */
function print(answer: Answer, { json, streams }: Call): number {
  const text = json && answer.exit !== 2 ? JSON.stringify(answer.json) : answer.text;
  if (answer.exit === 2) streams.err(`${text}\n`);
  else if (text !== undefined && text !== '') streams.out(`${text}\n`);
  return answer.exit;
}

/** A wrong call in one line: what is wrong, and what was expected. */
function wrongCall(error: CommanderError, program: Command, args: readonly string[]): Answer {
  const name = args.find((arg) => !arg.startsWith('-'));
  const called = program.commands.find((command) => command.name() === name);
  const usage =
    called === undefined
      ? `cabward SUB, SUB being one of ${program.commands.map((command) => command.name()).join(' ')}`
      : `cabward ${called.name()} ${called.usage()}`;
  const what = error.code === 'commander.help' ? 'no subcommand' : error.message.replace(/^error: /, '');
  return inputError(`${what.replace(/\.$/, '')}; expected: ${usage}`);
}

function addSubcommand(program: Command, { usage, says, options, act }: Subcommand, done: Done): void {
  const command = program.command(usage).description(says).allowExcessArguments(false);
  for (const [flags, meaning] of options ?? []) command.addOption(new Option(flags, meaning));
  command.option('--json', 'print one JSON document and nothing else');
  command.action(async (...given: unknown[]) => {
    const { json, ...typed } = command.opts<Record<string, string | string[]> & { json?: true }>();
    const single: Record<string, string> = {};
    const repeated: Record<string, readonly string[]> = {};
    for (const [name, value] of Object.entries(typed))
      if (Array.isArray(value)) repeated[name] = value;
      else single[name] = value;
    // Commander hands over the options and the command after the arguments.
    const args = given.slice(0, -2).map(String);
    await done((call) => act(args, single, call, repeated), json === true);
  });
}

type Done = (act: (call: Call) => Answer | Promise<Answer>, json: boolean) => Promise<void>;

/**
 * Runs the program.
 *
 * @param args what was typed after its name
 * @returns the exit status: 0 done; 1 done and the answer is bad; 2 the input or the call is wrong
 */
export async function runCabward(args: readonly string[], streams: Streams): Promise<number> {
  let status = 0;
  const program = new Command('cabward')
    .description('The dispatcher’s console for a conventional model railroad wired for cab control.')
    .version(programVersion())
    .exitOverride()
    .configureOutput({ writeOut: streams.out, writeErr: () => undefined });
  const done: Done = async (act, json) => {
    const call = { streams, json };
    status = print(await act(call), call);
  };
  for (const subcommand of SUBCOMMANDS) addSubcommand(program, subcommand, done);
  try {
    await program.parseAsync([...args], { from: 'user' });
    return status;
  } catch (error) {
    const call = { streams, json: false };
    if (!(error instanceof CommanderError)) {
      const what = error instanceof Error ? error.message : String(error);
      return print(inputError(`a fault of the program itself, not of what it was given: ${what}`), call);
    }
    return error.exitCode === 0 ? 0 : print(wrongCall(error, program, args), call);
  }
}
