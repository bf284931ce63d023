/**
 * The contract between host and screen: one table of calls (request and reply schemas) and one of pushes.
 * IPC, WebSocket and tests use this same table. Every call answers `{ ok: true, value }` or `{ ok: false, problem }`; nothing is thrown across.
 */
import { railroadDocument } from '../railroad/document.ts';
import { batchItem, MOST_ITEMS } from '../session/batch.ts';
import { sessionEvent } from '../session/event.ts';
import { standingCheck } from '../session/kept-checks.ts';
import { z } from '../zod.ts';
import { EVENING_CALLS, EVENING_PUSHES, foldedState } from './evening-calls.ts';

export type { EveningCard } from './evening-calls.ts';

const key = z.string().min(1).max(120);
const nothing = z.strictObject({});
const anyJson = z.unknown();

/** A railroad in the library: its published version (what evenings run on) and perhaps a draft. */
export const railroadCard = z.strictObject({
  id: key,
  name: z.string(),
  /** Number of the newest published version; 0 while there is none. */
  version: z.number().int().nonnegative(),
  hash: z.string().nullable(),
  hasDraft: z.boolean(),
  demo: z.boolean(),
  changedAt: z.string(),
});
export type RailroadCard = z.infer<typeof railroadCard>;

/** What the host answers about the evening that is going on (or was ended last, for reading). */
export const liveEvening = z.strictObject({
  id: key,
  /** When the session was opened, RFC 3339. */
  openedAt: z.string(),
  /** Seconds since the session was opened, by the host's clock, when this was answered. */
  now: z.number(),
  document: railroadDocument,
  state: foldedState,
  /** The newest events, oldest first (at most 200). */
  recent: z.array(sessionEvent),
  /** Which railroad of the library it is held on, in which published version; null where that railroad was removed. */
  heldOn: z.strictObject({ railroad: key, version: z.number().int() }).nullable(),
  /** True when this evening was found open at start, after a crash or a restart. */
  resumed: z.boolean(),
});
export type LiveEvening = z.infer<typeof liveEvening>;

const setting = z.strictObject({
  theme: z.enum(['dark', 'light', 'contrast']),
  lengths: z.enum(['metric', 'imperial']),
  /** Diagonal of the screen in inches and viewing distances in millimetres: they give the sizes of letters. */
  screenInches: z.number().min(5).max(120),
  deskMm: z.number().min(200).max(3000),
  farMm: z.number().min(500).max(10_000),
  sound: z.boolean(),
  speech: z.boolean(),
  phaseOldAfterMinutes: z.number().min(1).max(100_000),
  matchedVolts: z.number().min(0).max(50),
  throwSeconds: z.number().min(0).max(60),
  keys: z.record(z.string(), z.string()),
});
/** What the user set; every field has a default, so an empty object is whole. */
export const userSettings = z.strictObject({
  theme: setting.shape.theme.default('dark'),
  lengths: setting.shape.lengths.default('imperial'),
  screenInches: setting.shape.screenInches.default(24),
  deskMm: setting.shape.deskMm.default(700),
  farMm: setting.shape.farMm.default(2000),
  sound: setting.shape.sound.default(false),
  speech: setting.shape.speech.default(false),
  phaseOldAfterMinutes: setting.shape.phaseOldAfterMinutes.default(720),
  matchedVolts: setting.shape.matchedVolts.default(1),
  throwSeconds: setting.shape.throwSeconds.default(3),
  keys: setting.shape.keys.default({}),
});
export type UserSettings = z.infer<typeof userSettings>;

/** Whether what is done is being recorded; `says` is for the user, null while all is well. */
export const logState = z.strictObject({ writable: z.boolean(), says: z.string().nullable() });
export type LogState = z.infer<typeof logState>;

const call = <Request extends z.ZodType, Reply extends z.ZodType>(request: Request, reply: Reply) => ({
  request,
  reply,
});

const draftReply = z.strictObject({
  id: key,
  document: anyJson,
  version: z.number().int(),
  isDraft: z.boolean(),
});

export const CALLS = {
  hello: call(
    nothing,
    z.strictObject({
      version: z.string(),
      runtime: z.enum(['electron', 'node']),
      evening: z.strictObject({ id: key, resumed: z.boolean() }).nullable(),
      settings: userSettings,
      log: logState,
    }),
  ),
  /** Only what is given changes (a partial schema with defaults would fill in the rest). */
  'settings.write': call(setting.partial(), userSettings),
  'railroads.list': call(nothing, z.array(railroadCard)),
  /** `version` 0 or absent: the draft if there is one, else the newest published version. */
  'railroads.read': call(
    z.strictObject({ id: key, version: z.number().int().nonnegative().optional() }),
    draftReply,
  ),
  'railroads.versions': call(
    z.strictObject({ id: key }),
    z.array(
      z.strictObject({ version: z.number().int(), note: z.string(), hash: z.string(), at: z.string() }),
    ),
  ),
  /** `id` null makes a new railroad. A draft may be broken; it is kept and never run. */
  'railroads.saveDraft': call(
    z.strictObject({ id: key.nullable(), name: z.string().min(1).max(120), document: anyJson }),
    railroadCard,
  ),
  /** Makes the draft the newest version; refused while it does not parse or has an error that cannot be run. */
  'railroads.publish': call(z.strictObject({ id: key, note: z.string().max(400) }), railroadCard),
  'railroads.discardDraft': call(z.strictObject({ id: key }), railroadCard),
  /** Parses the text of a file; a wrong file is a problem with path and expectation, and nothing stored is touched. */
  'railroads.import': call(z.strictObject({ text: z.string(), name: z.string().max(200) }), railroadCard),
  'railroads.remove': call(z.strictObject({ id: key }), nothing),
  /** Opens a session on the newest published version of a railroad. */
  'evening.open': call(z.strictObject({ railroad: key, alone: z.boolean() }), liveEvening),
  'evening.read': call(nothing, liveEvening.nullable()),
  /**
   * One batch, whole or not at all. Either `events` (those of its items, in order) or `refused`, the event that stopped it;
   * that one is in the log too, unless the items before it made it refused, and nothing else of the batch is.
   */
  'evening.send': call(
    z.strictObject({ items: z.array(batchItem).min(1).max(MOST_ITEMS) }),
    z.strictObject({ events: z.array(sessionEvent), refused: sessionEvent.nullable() }),
  ),
  ...EVENING_CALLS,
  /** Keeps any named document of a kind (a rehearsal, an acknowledged caution…) as JSON. */
  'keep.write': call(z.strictObject({ kind: key, id: key, value: anyJson }), nothing),
  'keep.list': call(
    z.strictObject({ kind: key }),
    z.array(z.strictObject({ id: key, at: z.string(), value: anyJson })),
  ),
  'keep.remove': call(z.strictObject({ kind: key, id: key }), nothing),
  /** The phase checks that hold on a railroad while no evening goes on; their moments are seconds before the answer. */
  'phase.checks': call(z.strictObject({ railroad: key }), z.array(standingCheck)),
  /** Starts long work in the planner's worker; progress and result come as pushes with the job's number. */
  'plan.start': call(
    z.strictObject({
      task: z.enum(['safe', 'plan', 'capacity']),
      document: railroadDocument,
      situation: anyJson,
      /** Read by its task: `shared-model/wire/planner.ts`. */
      options: z.record(z.string(), z.unknown()),
    }),
    z.strictObject({ job: z.number().int() }),
  ),
  'plan.cancel': call(z.strictObject({ job: z.number().int() }), nothing),
} as const;

export const PUSHES = {
  /** Events of the live evening, after they are on disk. */
  'evening.events': z.strictObject({ id: key, events: z.array(sessionEvent) }),
  'evening.opened': z.strictObject({ id: key }),
  'plan.progress': z.strictObject({ job: z.number().int(), says: z.string(), best: anyJson.optional() }),
  'plan.done': z.strictObject({ job: z.number().int(), answer: anyJson }),
  'settings.changed': userSettings,
  'railroads.changed': nothing,
  ...EVENING_PUSHES,
  /** The disk is full, or has room again: a banner to show until it is well. */
  'log.state': logState,
} as const;

export type CallName = keyof typeof CALLS;
export type RequestOf<Name extends CallName> = z.input<(typeof CALLS)[Name]['request']>;
export type ReplyOf<Name extends CallName> = z.output<(typeof CALLS)[Name]['reply']>;
export type PushName = keyof typeof PUSHES;
export type PushOf<Name extends PushName> = z.output<(typeof PUSHES)[Name]>;

/** A call that could not be answered: which kind of thing went wrong, in words for the user, and where if it is about input. */
export interface Problem {
  readonly kind: 'bad-input' | 'not-found' | 'refused' | 'fault';
  readonly says: string;
  readonly path?: string;
}
export type Answer<Value> =
  | { readonly ok: true; readonly value: Value }
  | { readonly ok: false; readonly problem: Problem };

/** How a screen talks to a host, whatever lies between. */
export interface Connection {
  call<Name extends CallName>(name: Name, request: RequestOf<Name>): Promise<Answer<ReplyOf<Name>>>;
  on<Name extends PushName>(name: Name, listener: (push: PushOf<Name>) => void): () => void;
}
