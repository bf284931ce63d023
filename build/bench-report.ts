/** What a bench prints: tables, ratios against a baseline measured in the same run, and whether what must be reached was reached. */
import { performance } from 'node:perf_hooks';

export interface BenchReport {
  /** A heading for what follows. */
  about(what: string): void;
  /** A line of plain words: what was measured on, what is left out. */
  says(line: string): void;
  /** A table; the columns are those of the first row. */
  table(rows: readonly Readonly<Record<string, string | number>>[]): void;
  /** What is measured against a named baseline of the same run, both in the same unit: prints the quotient. */
  ratio(what: string, measured: number, baseline: { readonly name: string; readonly value: number }): void;
  /** Something that must be reached: printed as reached or missed, and a miss makes the whole run end with status 1. */
  mustReach(
    what: string,
    measured: number,
    bound: { readonly atMost: number } | { readonly atLeast: number },
  ): void;
}

/** A file `tests/bench/NAME.bench.ts` exports this as `run`. */
export type Bench = (report: BenchReport) => void | Promise<void>;

/** Four significant digits. */
const figure = (value: number): string =>
  Number.isInteger(value) && Math.abs(value) < 1e9 ? String(value) : String(Number(value.toPrecision(4)));

const cell = (value: string | number | undefined): string =>
  typeof value === 'number' ? figure(value) : (value ?? '');

/** @param missed told of everything that must be reached and was not */
export function benchReport(print: (line: string) => void, missed: (what: string) => void): BenchReport {
  return {
    about: (what) => print(`\n── ${what}`),
    says: print,
    table: (rows) => {
      const columns = Object.keys(rows[0] ?? {});
      const lines = [columns, ...rows.map((row) => columns.map((column) => cell(row[column])))];
      const widths = columns.map((_, index) => Math.max(...lines.map((line) => line[index]?.length ?? 0)));
      for (const line of lines)
        print(`  ${line.map((text, index) => text.padStart(widths[index] ?? 0)).join('  ')}`);
    },
    ratio: (what, measured, { name, value }) =>
      print(`  ${what}: ${figure(measured)}, ${figure(measured / value)} times ${name} (${figure(value)})`),
    mustReach: (what, measured, bound) => {
      const [word, limit, good] =
        'atMost' in bound
          ? ['at most', bound.atMost, measured <= bound.atMost]
          : ['at least', bound.atLeast, measured >= bound.atLeast];
      print(`  ${good ? 'reached' : 'MISSED '}  ${what}: ${figure(measured)} (${word} ${figure(limit)})`);
      if (!good) missed(what);
    },
  };
}

/** Milliseconds that something takes, with what it gives. */
export function timed<T>(work: () => T): { readonly ms: number; readonly value: T } {
  const begin = performance.now();
  const value = work();
  return { ms: performance.now() - begin, value };
}

/** The value below which a share of the list lies, by the nearest rank; NaN of an empty list. */
export function percentile(list: readonly number[], percent: number): number {
  const sorted = [...list].sort((one, other) => one - other);
  return sorted[Math.max(0, Math.ceil((percent / 100) * sorted.length) - 1)] ?? Number.NaN;
}
