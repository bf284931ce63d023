/**
 * The machines: which states there are and which change may follow which. They hold no time, no effects and no reasons;
 * the reasons are computed by the pure functions in `rules/`, and only an order that has none reaches a machine.
 */
import { type AnyStateMachine, createMachine, getNextSnapshot } from 'xstate';
import type { Verb } from './input.ts';
import { OBSERVATION_VERBS, ORDER_VERBS } from './input.ts';
import type { AuthorityStateName, BlockStateName, SessionPhase } from './state.ts';

/** Orders that mend, carried out while stopped (knobs only to off, see `sessionTakes`). */
const MENDING: readonly Verb[] = [
  'settle',
  'annul',
  'tag',
  'untag',
  'take-off',
  'place-train',
  'change-cab',
  'assign-cab',
  'declare',
  'override',
  'retract',
  'alarm-seen',
  'turn-selector',
  'set-toggle',
  'set-clock',
];
const PREPARING: readonly Verb[] = [
  'assign-cab',
  'place-train',
  'add-train',
  'take-off',
  'change-cab',
  'apply-setting',
  'turn-selector',
  'throw-turnout',
  'set-toggle',
  'declare',
  'tag',
  'untag',
  'settle',
  'override',
  'retract',
  'alarm-seen',
  'set-clock',
];
const DISPATCHING: readonly Verb[] = ORDER_VERBS.filter(
  (verb) => !['open-session', 'start', 'resume', 'stop-all', 'end-session'].includes(verb),
);

const staying = (verbs: readonly Verb[]) => Object.fromEntries(verbs.map((verb) => [verb, {}]));

/** The session: what may be ordered when. Observations are taken from the opening to the end. */
export const sessionMachine = createMachine({
  id: 'session',
  initial: 'before',
  states: {
    before: { on: { 'open-session': 'making-up' } },
    'making-up': {
      on: { ...staying([...PREPARING, ...OBSERVATION_VERBS]), start: 'running', 'end-session': 'ended' },
    },
    running: {
      on: {
        ...staying([...DISPATCHING, ...OBSERVATION_VERBS]),
        'stop-all': 'stopped',
        'end-session': 'ended',
      },
    },
    stopped: {
      on: { ...staying([...MENDING, ...OBSERVATION_VERBS]), resume: 'running', 'end-session': 'ended' },
    },
    ended: { type: 'final' },
  },
});

/** A block: `open → pledged → lined → occupied → open`, and disputed from any. */
export const blockMachine = createMachine({
  id: 'block',
  initial: 'open',
  states: {
    open: { on: { pledge: 'pledged', line: 'lined', occupy: 'occupied', dispute: 'disputed' } },
    pledged: { on: { line: 'lined', occupy: 'occupied', 'give-back': 'open', dispute: 'disputed' } },
    lined: { on: { 'turn-away': 'pledged', occupy: 'occupied', 'give-back': 'open', dispute: 'disputed' } },
    occupied: {
      on: { 'give-back': 'open', 'pledge-again': 'pledged', 'line-again': 'lined', dispute: 'disputed' },
    },
    disputed: {
      on: {
        'settle-open': 'open',
        'settle-pledged': 'pledged',
        'settle-lined': 'lined',
        'settle-occupied': 'occupied',
      },
    },
  },
});

/** An authority: it counts after the read-back and runs from the first entry on it. */
export const authorityMachine = createMachine({
  id: 'authority',
  initial: 'granted',
  states: {
    granted: { on: { acknowledge: 'acknowledged', annul: 'annulled', release: 'fulfilled' } },
    acknowledged: { on: { enter: 'running', annul: 'annulled', release: 'fulfilled' } },
    running: { on: { fulfil: 'fulfilled', annul: 'annulled' } },
    fulfilled: { type: 'final' },
    annulled: { type: 'final' },
  },
});

/** What is known of a knob, turnout or toggle. */
export const positionMachine = createMachine({
  id: 'position',
  initial: 'presumed',
  states: {
    presumed: { on: { throw: 'known', report: 'known' } },
    known: { on: { throw: 'known', report: 'known' } },
  },
});

/** An alarm, from the moment it is raised. */
export const alarmMachine = createMachine({
  id: 'alarm',
  initial: 'standing',
  states: {
    standing: { on: { see: 'seen', repeat: 'standing', end: 'ended' } },
    seen: { on: { see: 'seen', repeat: 'seen', end: 'ended' } },
    ended: { type: 'final' },
  },
});

const remembered = new WeakMap<AnyStateMachine, Map<string, string | null>>();

/** The state after an event, by the machine's own pure transition; null where the machine has no such edge. Remembered, since a flat machine always answers the same. */
function next(machine: AnyStateMachine, state: string, event: string): string | null {
  const known = remembered.get(machine) ?? new Map<string, string | null>();
  remembered.set(machine, known);
  const key = `${state} ${event}`;
  const before = known.get(key);
  if (before !== undefined) return before;
  const snapshot = machine.resolveState({ value: state, context: undefined });
  const edge = machine.states[state]?.on[event] !== undefined;
  const after = edge ? String(getNextSnapshot(machine, snapshot, { type: event }).value) : null;
  known.set(key, after);
  return after;
}

function mustGo(machine: AnyStateMachine, state: string, event: string): string {
  const after = next(machine, state, event);
  if (after === null) throw new Error(`the ${machine.id} machine has no ${event} from ${state}`);
  return after;
}

/** Whether a session in this phase takes an input of this verb at all. */
export function phaseTakes(phase: SessionPhase, verb: Verb): boolean {
  return next(sessionMachine, phase, verb) !== null;
}

/** The session's phase after an input that it takes. */
export function phaseAfter(phase: SessionPhase, verb: Verb): SessionPhase {
  return mustGo(sessionMachine, phase, verb) as SessionPhase;
}

/** An authority's state after an event; a fault when the machine has no such edge. */
export function authorityAfter(state: AuthorityStateName, event: string): AuthorityStateName {
  return mustGo(authorityMachine, state, event) as AuthorityStateName;
}

/** Takes a block from one state to another along an edge of its machine; a fault when there is none. */
export function blockAfter(from: BlockStateName, to: BlockStateName): BlockStateName {
  if (from === to) return to;
  const events = Object.keys(blockMachine.states[from]?.on ?? {});
  const event = events.find((name) => next(blockMachine, from, name) === to);
  if (event === undefined) throw new Error(`the block machine has no way from ${from} to ${to}`);
  return mustGo(blockMachine, from, event) as BlockStateName;
}
