/** What goes into a session: orders (intended, checked first) and observations (happened, never refused but for the named exceptions). */
import {
  authorityId,
  blockId,
  cutId,
  edgeId,
  nodeId,
  selectorId,
  settingId,
  supplyId,
  thingId,
  throttleId,
  toggleId,
  trainId,
} from '../ids.ts';
import { turnoutPosition } from '../railroad/document.ts';
import { z } from '../zod.ts';

const text = z
  .string()
  .min(1, 'expected at least one character')
  .max(1000, 'expected at most 1000 characters');
const person = z
  .string()
  .min(1, 'expected a name, or null for nobody')
  .max(60, 'expected a name of at most 60 characters');
const lengthMm = z.number().positive('expected more than 0 mm').max(10_000_000, 'expected at most 10 km');
const amps = z.number().nonnegative('expected 0 A or more').max(1000, 'expected at most 1000 A');
const volts = z.number().nonnegative('expected 0 V or more').max(1000, 'expected at most 1000 V');
/** The number of an entry: the script line or log entry that made it, counted from 1 over the inputs. */
const entryNumber = z.number().int().positive();
const RATIO = 'expected 0 to 60 times as fast';
const selectorPosition = z.union([z.literal('off'), throttleId]);
/** Where to: a block, an edge at whose far end the head is to stop, or a place. */
const destination = thingId;
const trainOrCut = thingId;
const spot = { edge: edgeId, toward: nodeId };

const verb = <Do extends string, Shape extends z.core.$ZodLooseShape>(name: Do, shape: Shape) =>
  z.strictObject({ do: z.literal(name), ...shape });

const plainOrders = [
  verb('open-session', { alone: z.boolean().optional() }),
  verb('assign-cab', { cab: throttleId, person: person.nullable() }),
  verb('place-train', { train: trainId, ...spot, cab: throttleId.optional() }),
  verb('add-train', { train: trainId, name: person, length: lengthMm, amps }),
  verb('take-off', { train: trainId }),
  verb('apply-setting', { setting: settingId }),
  verb('start', {}),
  verb('end-session', {}),
  verb('request-move', {
    train: trainId,
    to: destination,
    via: z.array(blockId).optional(),
    overhang: z.boolean().optional(),
    joining: trainOrCut.optional(),
    together: z.array(trainId).optional(),
  }),
  verb('acknowledge', { authority: authorityId }),
  verb('annul', { authority: authorityId, why: text }),
  verb('withdraw', { train: trainId }),
  verb('declare', { train: trainId, to: destination }),
  verb('hand-off', { train: trainId, block: blockId, toCab: throttleId }),
  verb('grant-limits', { train: trainId, blocks: z.array(blockId).min(1) }),
  verb('release-limits', { train: trainId, ...spot }),
  verb('change-cab', { train: trainId, cab: throttleId }),
  verb('stop-all', { why: text, kind: z.enum(['emergency', 'break']) }),
  verb('resume', {}),
  /** A position that is not wired (null) may be asked for, and is refused; nothing can be found to stand there. */
  verb('turn-selector', { selector: selectorId, position: selectorPosition.nullable() }),
  verb('throw-turnout', { turnout: nodeId, position: turnoutPosition }),
  verb('set-toggle', { toggle: toggleId, on: z.boolean() }),
  verb('tag', { thing: thingId, why: text, by: person }),
  verb('untag', { thing: thingId, by: person }),
  verb('settle', { block: blockId, state: z.enum(['open', 'occupied']), train: trainId.optional() }),
  verb('retract', { entry: entryNumber, why: text }),
  verb('alarm-seen', { alarm: entryNumber }),
  verb('advance', { train: trainId }),
  /** Railroad time: minutes since its midnight now, and how many times as fast as the wall clock it runs (0: no railroad time). */
  verb('set-clock', { ratio: z.number().min(0, RATIO).max(60, RATIO), minutes: z.number().min(0).max(1440) }),
] as const;
const plainOrder = z.discriminatedUnion('do', plainOrders);
export type PlainOrder = z.infer<typeof plainOrder>;

const overrideOrder = verb('override', { why: text, order: plainOrder });

const observations = [
  verb('train-entered', { train: trainId, block: blockId }),
  verb('train-cleared', { train: trainId, block: blockId }),
  verb('train-stopped', { train: trainId }),
  verb('train-at', { train: trainId, ...spot }),
  verb('stalled', { train: trainId }),
  verb('derailed', { train: trainId }),
  verb('rerailed', { train: trainId }),
  verb('set-out', { train: trainId, cut: cutId, length: lengthMm, ...spot }),
  verb('pick-up', { train: trainId, cut: cutId }),
  verb('couple', { train: trainId, other: trainId }),
  verb('make-up', { train: trainId, length: lengthMm, amps }),
  verb('selector-stands-at', { selector: selectorId, position: selectorPosition }),
  verb('turnout-stands-at', { turnout: nodeId, position: turnoutPosition }),
  verb('toggle-stands-at', { toggle: toggleId, on: z.boolean() }),
  verb('handle-at-zero', { cab: throttleId }),
  verb('call', { cab: throttleId }),
  verb('stop-called', { cab: throttleId }),
  verb('phase-measured', { a: supplyId, b: supplyId, voltsA: volts, voltsB: volts, voltsAcross: volts }),
  verb('supply-replugged', { supply: supplyId }),
  verb('breaker-tripped', { supply: supplyId }),
  verb('breaker-reset', { supply: supplyId }),
  verb('note', { text }),
] as const;
const observation = z.discriminatedUnion('do', observations);
export type Observation = z.infer<typeof observation>;

/** One order or observation, without the time. */
export const sessionInput = z.discriminatedUnion('do', [...plainOrders, overrideOrder, ...observations]);
export type SessionInput = z.infer<typeof sessionInput>;
export type Order = PlainOrder | z.infer<typeof overrideOrder>;
export type Verb = SessionInput['do'];
export type InputOf<Do extends Verb> = Extract<SessionInput, { do: Do }>;

export const ORDER_VERBS: readonly Order['do'][] = [...plainOrders.map((s) => s.shape.do.value), 'override'];
export const OBSERVATION_VERBS: readonly Observation['do'][] = observations.map((s) => s.shape.do.value);

const observationVerbs: ReadonlySet<string> = new Set(OBSERVATION_VERBS);
/** Whether an input is something that happened (true) or something intended (false). */
export function isObservation(input: SessionInput): input is Observation {
  return observationVerbs.has(input.do);
}

/** Whether an input is an order that can be overridden as far as its kind goes: any but an override. */
export const isPlainOrder = (input: SessionInput): input is PlainOrder =>
  input.do !== 'override' && !isObservation(input);

/** The orders that can be taken back; of observations, all can. */
const RETRACTABLE_ORDERS: ReadonlySet<string> = new Set<Verb>([
  'place-train',
  'turn-selector',
  'throw-turnout',
  'set-toggle',
  'declare',
  'tag',
  'untag',
  'settle',
]);
/** Whether an input of this kind can be taken back by `retract`. */
export const isRetractable = (input: SessionInput): boolean =>
  isObservation(input) || RETRACTABLE_ORDERS.has(input.do);

/** An input with its moment: seconds since the session was opened; `at` never goes back. */
export interface TimedInput {
  readonly at: number;
  readonly input: SessionInput;
  /** The act that implied it, where one key made several inputs (an inferred report). */
  readonly impliedBy?: string | undefined;
}
