/** Seeking in an evening of a million entries (CABWARD_BENCH_ENTRIES for another number): any moment within 50 ms on the host; beside one of a thousand. */
import { mkdtempSync, rmSync } from 'node:fs';
import { tmpdir } from 'node:os';
import { join } from 'node:path';
import Sqlite from 'better-sqlite3';
import { type Bench, type BenchReport, percentile, timed } from '../../build/bench-report.ts';
import { readEvents } from '../../electron/host/log/events.ts';
import type { ReadableLog } from '../../electron/host/log/log.ts';
import { entryAt, markFrom, outlineOf } from '../../electron/host/log/moments.ts';
import { stateAt } from '../../electron/host/log/state-at.ts';
import { CHECKPOINT_EVERY } from '../../shared-model/logbook/replay.ts';
import { chanceOf } from '../support/chance.ts';
import { makeLongLog } from '../support/long-log.ts';

const MANY = Number(process.env.CABWARD_BENCH_ENTRIES ?? 1_000_000);
const FEW = 1000;
const SEEKS = 400;
/** What issue 5 asks for. */
const SEEK_MS = 50;

interface Asked {
  readonly log: ReadableLog;
  readonly session: number;
  readonly entries: number;
}

/** What acts took, in milliseconds: by the clock, and of the processor, which another program on the machine does not lengthen. */
interface Took {
  readonly clock: readonly number[];
  readonly processor: readonly number[];
}

function took(acts: readonly (() => unknown)[]): Took {
  const all = acts.map((act) => {
    const before = process.cpuUsage();
    const { ms } = timed(act);
    const { user, system } = process.cpuUsage(before);
    return { ms, cpu: (user + system) / 1000 };
  });
  return { clock: all.map(({ ms }) => ms), processor: all.map(({ cpu }) => cpu) };
}

/** Many single acts, each at another place of the evening. */
function measured({ entries }: Asked, act: (entry: number) => unknown): Took {
  const chance = chanceOf(7);
  return took(Array.from({ length: SEEKS }, () => () => act(chance.between(0, entries))));
}

function figuresOf(asked: Asked) {
  const { log, session, entries } = asked;
  const lasts = stateAt(log, session, entries).at;
  return {
    'state at an entry': measured(asked, (entry) => stateAt(log, session, entry)),
    'piece of the page': measured(asked, (entry) =>
      readEvents(log, session, entry + 1, entry + CHECKPOINT_EVERY),
    ),
    'entry at a second': measured(asked, (entry) =>
      entryAt(log, session, entries, (entry / entries) * lasts),
    ),
    'state at a second': measured(asked, (entry) =>
      stateAt(log, session, entryAt(log, session, entries, (entry / entries) * lasts)),
    ),
    'next refusal or alarm': measured(asked, (entry) => markFrom(log, session, entry, 'next')),
    outline: took([() => outlineOf(log, session, entries, 240)]),
  };
}

function longestOf(report: BenchReport, folder: string, entries: number) {
  const file = join(folder, `${entries}.cabward`);
  const made = timed(() => makeLongLog(file, entries));
  report.says(`made a log of ${entries} entries in ${(made.ms / 1000).toFixed(1)} s`);
  const log = new Sqlite(file, { readonly: true }) as ReadableLog;
  const figures = figuresOf({ log, session: made.value, entries });
  log.close();
  report.table(
    Object.entries(figures).map(([what, all]) => ({
      what,
      'p50 ms': percentile(all.clock, 50),
      'p99 ms': percentile(all.clock, 99),
      'p50 processor': percentile(all.processor, 50),
      'p99 processor': percentile(all.processor, 99),
      'longest processor': Math.max(...all.processor),
    })),
  );
  return figures;
}

export const run: Bench = (report) => {
  const folder = mkdtempSync(join(tmpdir(), 'cabward-bench-'));
  try {
    report.about(`Seeking in an evening of ${MANY} entries`);
    const few = longestOf(report, folder, FEW);
    const many = longestOf(report, folder, MANY);
    const [short, long] = [few['state at a second'], many['state at a second']];
    report.ratio('p50 of the state at a second', percentile(long.processor, 50), {
      name: `an evening of ${FEW}`,
      value: percentile(short.processor, 50),
    });
    report.mustReach('p99 of any moment, in ms of the processor', percentile(long.processor, 99), {
      atMost: SEEK_MS,
    });
  } finally {
    rmSync(folder, { recursive: true, force: true });
  }
};
