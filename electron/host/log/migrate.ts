/** Brings a log to the newest form: `user_version` in steps of ten, each step in a transaction of its own. */
import type { Database } from 'better-sqlite3';
import { railroads } from './migrations/10-railroads.ts';
import { evenings } from './migrations/20-evenings.ts';
import { kept } from './migrations/30-kept.ts';
import { marks } from './migrations/40-marks.ts';
import { partial } from './migrations/50-partial.ts';

export interface Migration {
  /** `user_version` after it; tens, so that a mend can be slipped in between. */
  readonly version: number;
  readonly sql: string;
}

export const MIGRATIONS: readonly Migration[] = [
  { version: 10, sql: railroads },
  { version: 20, sql: evenings },
  { version: 30, sql: kept },
  { version: 40, sql: marks },
  { version: 50, sql: partial },
];

/** The newest form that this program knows. */
export const NEWEST_VERSION = MIGRATIONS.at(-1)?.version ?? 0;

/** The form that a log is in. */
export function versionOf(database: Database): number {
  return Number(database.pragma('user_version', { simple: true }));
}

/**
 * Runs the migrations that a log has not had yet, in order, up to and including `upTo`.
 *
 * Each sets `user_version` in its own transaction: a crash between two leaves a log that goes on from there.
 */
export function migrate(
  database: Database,
  migrations: readonly Migration[] = MIGRATIONS,
  upTo: number = Number.POSITIVE_INFINITY,
): void {
  for (const [index, { version, sql }] of migrations.entries()) {
    const before = migrations[index - 1]?.version ?? 0;
    if (!Number.isInteger(version) || version <= before)
      throw new Error(`migration ${version} does not come after ${before}`);
    if (version <= versionOf(database) || version > upTo) continue;
    database
      .transaction(() => {
        database.exec(sql);
        database.pragma(`user_version = ${version}`);
      })
      .immediate();
  }
}
