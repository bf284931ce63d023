/** All that is remembered of an evening, and what the order or report means. Everything else is worked out anew each time. */
import type { Check } from './phase.ts';
import type { Doc, Setting, Spot, Stretch, Track } from './track.ts';
import { trackOf } from './track.ts';

/** A line of a script as it comes: `do` and the fields of that verb. */
export interface Line {
  at: number;
  do: string;
  // biome-ignore lint/suspicious/noExplicitAny: a script is plain JSON; what is in it depends on the verb
  [field: string]: any;
}

export interface Reason {
  code: string;
  about: string[];
}

/** A block that a train is in: whose it is there, when it came (a later one is the owner), and whether it came with picked-up cars. */
export interface Standing {
  block: string;
  cab: string | null;
  since: number;
  pickedUp: boolean;
}

export interface PlacedTrain {
  cab: string | null;
  /** The way it came, head first; the part under it follows from its length. */
  trail: Stretch[];
  known: boolean;
  blocks: Standing[];
  stopped: boolean;
  /** Agreed hand-offs still to come: block to cab. */
  handOffs: Record<string, string>;
}

export interface Cut {
  length: number;
  trail: Stretch[];
  blocks: string[];
}

/** One entry in the blocks of an authority: the block, the way through it, and whether it was read back. */
export interface Visit {
  block: string;
  steps: Stretch[];
  cab: string;
  read: boolean;
}

export interface Authority {
  id: string;
  train: string;
  kind: 'move' | 'limits';
  state: 'granted' | 'acknowledged' | 'running' | 'fulfilled' | 'annulled';
  start: Spot;
  /** Steps between the head and the next visit, still in the block where the head stands. */
  lead: Stretch[];
  /** Such steps already run; their turnouts are given back with that block. */
  led: Stretch[];
  visits: Visit[];
  /** The visit in which the head is; -1 before the first. */
  pos: number;
  together: string[];
  /** Limits: blocks that have become occupied. */
  occupied: string[];
}

export interface Alarm {
  code: string;
  about: string[];
  /** The train that the block showed when it was raised. */
  owner: string | null;
  /** The number of the line that raised it. */
  line: number;
}

export interface Ask {
  train: string;
  line: Line;
}

export interface State {
  session: 'before' | 'making-up' | 'running' | 'stopped' | 'ended';
  alone: boolean;
  persons: Record<string, string | null>;
  rolling: Record<string, { length: number; amps: number }>;
  selectors: Record<string, string>;
  turnouts: Record<string, Setting>;
  toggles: Record<string, boolean>;
  /** Knobs, turnouts and toggles thrown or reported in this session. */
  shown: string[];
  trains: Record<string, PlacedTrain>;
  cuts: Record<string, Cut>;
  authorities: Authority[];
  /** Disputed blocks with the owner before. */
  disputed: Record<string, { cab: string | null; train: string | null }>;
  alarms: Alarm[];
  asks: Ask[];
  tags: string[];
  /** Who placed each tag. */
  taggedBy: Record<string, string>;
  derailed: string[];
  zero: string[];
  checks: Check[];
  arrivals: number;
}

export interface World {
  track: Track;
  doc: Doc;
}

export const worldOf = (doc: Doc): World => ({ track: trackOf(doc), doc });

export function beginning({ doc, track }: World): State {
  return {
    session: 'before',
    alone: false,
    persons: Object.fromEntries(doc.throttles.map((t) => [t.id, null])),
    rolling: Object.fromEntries(doc.trains.map((t) => [t.id, { length: t.length, amps: t.amps }])),
    selectors: Object.fromEntries(doc.selectors.map((s) => [s.id, 'off'])),
    turnouts: Object.fromEntries(track.thrown.map((id) => [id, 'normal' as const])),
    toggles: Object.fromEntries(doc.toggles.map((t) => [t.id, false])),
    shown: [],
    trains: {},
    cuts: {},
    authorities: [],
    disputed: {},
    alarms: [],
    asks: [],
    tags: [],
    taggedBy: {},
    derailed: [],
    zero: [],
    checks: [],
    arrivals: 0,
  };
}

/** Adds a reason unless the same code about the same things is there. */
export function addReason(reasons: Reason[], code: string, ...about: string[]): void {
  if (!reasons.some((one) => one.code === code && one.about.join('\n') === about.join('\n')))
    reasons.push({ code, about });
}

export const inForce = (authority: Authority): boolean =>
  authority.state !== 'fulfilled' && authority.state !== 'annulled';

export const authorityOf = (state: State, train: string): Authority | undefined =>
  state.authorities.find((one) => one.train === train && inForce(one));

export const isIn = (state: State, train: string, block: string): boolean =>
  state.trains[train]?.blocks.some((one) => one.block === block) ?? false;

/** All trains that are placed, in the order of the document, then those of tonight. */
export const placed = (state: State): string[] => Object.keys(state.rolling).filter((id) => state.trains[id]);

/** The visits still to come. */
export const ahead = (authority: Authority): Visit[] =>
  authority.kind === 'move' ? authority.visits.slice(authority.pos + 1) : [];

export const headBlock = (state: State, train: string): string | null =>
  state.trains[train]?.blocks[0]?.block ?? null;
