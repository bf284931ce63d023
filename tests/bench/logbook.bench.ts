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

/** Milliseconds of many single acts, each at another place of the evening. */
function measured({ entries }: Asked, act: (entry: number) => unknown): readonly number[] {
  const chance = chanceOf(7);
  return Array.from({ length: SEEKS }, () => timed(() => act(chance.between(0, entries))).ms);
}

function figuresOf(asked: Asked) {
  const { log, session, entries } = asked;
  const lasts = stateAt(log, session, entries).at;
  return {
    'state at an entry': measured(asked, (entry) => stateAt(log, session, entry)),
    'piece of 500 entries': measured(asked, (entry) => readEvents(log, session, entry, entry + 499)),
    'entry at a second': measured(asked, (entry) =>
      entryAt(log, session, entries, (entry / entries) * lasts),
    ),
    'state at a second': measured(asked, (entry) =>
      stateAt(log, session, entryAt(log, session, entries, (entry / entries) * lasts)),
    ),
    'next refusal or alarm': measured(asked, (entry) => markFrom(log, session, entry, 'next')),
    outline: [timed(() => outlineOf(log, session, entries, 240)).ms],
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
      'p50 ms': percentile(all, 50),
      'p99 ms': percentile(all, 99),
      'longest ms': Math.max(...all),
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
    report.ratio('p50 of the state at a second', percentile(long, 50), {
      name: `an evening of ${FEW}`,
      value: percentile(short, 50),
    });
    report.mustReach('p99 of any moment, in ms', percentile(long, 99), { atMost: SEEK_MS });
  } finally {
    rmSync(folder, { recursive: true, force: true });
  }
};
