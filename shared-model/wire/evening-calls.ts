/** The part of the contract about evenings that were: reading them back, their figures, carrying them, backing up and restoring the log. */
import type { EveningCharts } from '../logbook/charts/chart-data.ts';
import type { EveningFigures } from '../logbook/figure-types.ts';
import type { TrainSheet } from '../logbook/train-sheet.ts';
import { railroadDocument } from '../railroad/document.ts';
import { sessionEvent } from '../session/event.ts';
import type { SessionState } from '../session/state.ts';
import { z } from '../zod.ts';

const key = z.string().min(1).max(120);
const entry = z.number().int().nonnegative();

/** What this program worked out is not taken apart again at the border, only known to be an object. */
const ours = <Value>(): z.ZodType<Value> => z.record(z.string(), z.unknown()) as unknown as z.ZodType<Value>;
/** A folded state, as this program folded it. */
export const foldedState = ours<SessionState>();

export const eveningCard = z.strictObject({
  id: key,
  /** The same in every installation that has this evening. */
  uid: z.string(),
  name: z.string(),
  note: z.string(),
  railroadName: z.string(),
  railroadHash: z.string(),
  openedAt: z.string(),
  endedAt: z.string().nullable(),
  entries: z.number().int().nonnegative(),
  refusals: z.number().int().nonnegative(),
  alarms: z.number().int().nonnegative(),
  people: z.array(z.string()),
  archived: z.boolean(),
  headHash: z.string(),
});
export type EveningCard = z.infer<typeof eveningCard>;

/** Some entries of an evening together: up to which, at which second that one came, and what is among them. */
const outlineBin = z.strictObject({
  to: entry,
  at: z.number(),
  refusals: entry,
  alarms: entry,
});
export type OutlineBin = z.infer<typeof outlineBin>;
const outline = z.strictObject({ bins: z.array(outlineBin) });
export type Outline = z.infer<typeof outline>;

/** A copy of the log that was made earlier. */
const backupCard = z.strictObject({
  /** Its file's name in the folder of backups. */
  file: z.string(),
  bytes: z.number(),
  /** When it was made, RFC 3339, by its name; null where that does not say. */
  made: z.string().nullable(),
  evenings: entry,
  /** When its newest evening was opened; null where it has none. */
  newest: z.string().nullable(),
  /** What is wrong with it at first sight; null when nothing is. */
  problem: z.string().nullable(),
});
export type BackupCard = z.infer<typeof backupCard>;

const call = <Request extends z.ZodType, Reply extends z.ZodType>(request: Request, reply: Reply) => ({
  request,
  reply,
});
const nothing = z.strictObject({});
const one = z.strictObject({ id: key });

export const EVENING_CALLS = {
  'evenings.list': call(nothing, z.array(eveningCard)),
  /**
   * What is needed to replay an evening: railroad as it was, state before the first event.
   * `checked`: gone through entry by entry and found as it was written; a long one is so only after `evenings.check`.
   */
  'evenings.read': call(
    one,
    z.strictObject({
      card: eveningCard,
      document: railroadDocument,
      initial: foldedState,
      checked: z.boolean(),
    }),
  ),
  /** Goes through an evening entry by entry; a problem when it is not what was written. */
  'evenings.check': call(one, nothing),
  /** Events `from` to `to` (entry numbers, both included, at most 5000 a call). */
  'evenings.events': call(
    z.strictObject({ id: key, from: z.number().int().positive(), to: z.number().int().positive() }),
    z.array(sessionEvent),
  ),
  'evenings.stateAt': call(
    z.strictObject({ id: key, entry }),
    z.strictObject({ state: foldedState, entry: z.number().int() }),
  ),
  /** How the entries lie in time, for a scrubber. */
  'evenings.outline': call(z.strictObject({ id: key, bins: z.number().int().min(1).max(1000) }), outline),
  /** The newest entry at or before a second of the evening; 0 before the first. */
  'evenings.entryAt': call(z.strictObject({ id: key, at: z.number() }), z.strictObject({ entry })),
  /** The next refusal or alarm after an entry, or the last before it. */
  'evenings.markFrom': call(
    z.strictObject({ id: key, entry, direction: z.enum(['next', 'before']) }),
    z.strictObject({ entry: entry.nullable() }),
  ),
  /** Sheet and figures. Long ones take a while: `evenings.progress` tells, `evenings.giveUp` ends it. */
  'evenings.report': call(
    one,
    z.strictObject({ figures: ours<EveningFigures>(), sheet: ours<TrainSheet>() }),
  ),
  'evenings.giveUp': call(one, nothing),
  /** What the charts of a part of an evening are drawn from; `range.to` is less than was asked for where there were too many entries. */
  'evenings.charts': call(
    z.strictObject({ id: key, from: z.number().min(0), to: z.number().min(0) }),
    ours<EveningCharts>(),
  ),
  'evenings.update': call(
    z.strictObject({
      id: key,
      name: z.string().max(120).optional(),
      note: z.string().max(4000).optional(),
      archived: z.boolean().optional(),
    }),
    eveningCard,
  ),
  /** Asked twice: `confirm` has to be the evening's name. */
  'evenings.remove': call(z.strictObject({ id: key, confirm: z.string() }), nothing),
  /** An evening as a file: the texts of all parts one after the other. `next` is the `after` of the part that follows; null with the last. */
  'evenings.export': call(
    z.strictObject({ id: key, after: entry.default(0) }),
    z.strictObject({ name: z.string(), text: z.string(), next: entry.nullable() }),
  ),
  /** A part of an evening file that is too long for one message; `file` is a name of the caller's choice, `at` how many bytes came before. */
  'evenings.importPart': call(
    z.strictObject({ file: key, at: entry, text: z.string() }),
    z.strictObject({ size: entry }),
  ),
  /** Brings in an evening file: `text`, after the parts that came under `file`. `evenings.progress` tells, `evenings.giveUp` ends it, both by `file`. */
  'evenings.import': call(z.strictObject({ text: z.string(), file: key.optional() }), eveningCard),
  /** Goes through the whole log. `log.progress` tells, `log.giveUp` ends it. */
  'log.verify': call(nothing, z.strictObject({ good: z.boolean(), says: z.array(z.string()) })),
  'log.backup': call(nothing, z.strictObject({ file: z.string() })),
  /** The copies of the log, the newest first. */
  'log.backups': call(nothing, z.array(backupCard)),
  /**
   * Brings back from a backup what is not in the log: nothing in the log is lost by it.
   * A log that is damaged is set aside at the next start and the backup takes its place.
   * The backup is gone through whole first: `log.progress` tells, `log.giveUp` ends it.
   */
  'log.restore': call(
    z.strictObject({ file: z.string().min(1).max(200) }),
    z.strictObject({ evenings: entry, railroads: entry, says: z.string() }),
  ),
  /** Ends `log.verify` and `log.restore`. */
  'log.giveUp': call(nothing, nothing),
} as const;

export const EVENING_PUSHES = {
  /**
   * How far a report has got, or the judging of a file that is brought in (`id` is the file's; how many it has is known).
   * `written`: judged already, it is being written into the log.
   */
  'evenings.progress': z.strictObject({
    id: key,
    entries: entry,
    of: entry,
    written: z.literal(true).optional(),
  }),
  /** The list of evenings, or what it says of one, is another now. */
  'evenings.changed': nothing,
  /** How far the going through of a log, or of a backup, has got; `written`: of what is brought back, it is being written. */
  'log.progress': z.strictObject({ entries: entry, of: entry, written: z.literal(true).optional() }),
} as const;
