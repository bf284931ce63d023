/** What each act of the Desk does at a moment of the evening. */
import type { ThrottleId } from '../../shared-model/ids.ts';
import { authoritiesInForce } from '../../shared-model/session/facts/authorities.ts';
import type { SessionInput } from '../../shared-model/session/input.ts';
import type { ActName } from '../keys/acts.ts';
import { lastRetractable } from './entry-line/last-report.ts';
import { type LineContext, send } from './entry-line/reading.ts';
import { nextAct, pendingThrows } from './next-act.ts';
import { type Doing, doingOf, type Option, optionOf, tell } from './option.ts';
import { throwKey } from './pending-throw.ts';
import { readBackNow } from './read-backs.ts';
import { throwItems } from './throw-items.ts';

const NO_CAB = 'There is no such cab on this railroad.';

const option = (says: string, ...inputs: readonly SessionInput[]): Option => optionOf(send(says, ...inputs));
const doIt = (says: string, ...inputs: readonly SessionInput[]): Doing => ({
  kind: 'do',
  option: option(says, ...inputs),
});

/** The trains of a cab that can go on: those that run; where none does, those that were read back. */
export function advanceable({ state }: LineContext, cab: ThrottleId): readonly Option[] {
  const held = authoritiesInForce(state).filter(
    ({ authority }) => authority.kind === 'move' && state.trains[authority.train]?.cab === cab,
  );
  const running = held.filter(({ authority }) => authority.state === 'running');
  return (running.length > 0 ? running : held).map(({ authority: { train } }) =>
    option(`advance ${state.trains[train]?.name ?? train}`, { do: 'advance', train }),
  );
}

function throwsDone(context: LineContext, later: readonly string[], all: boolean): Doing {
  const pending = pendingThrows(context, later);
  const next = nextAct(context.state, pending);
  if (next.kind !== 'throw') return tell('No throw is next.');
  const chosen = all
    ? pending.filter(({ cab, thrown }) => cab === next.pending.cab && thrown.waitsFor.length === 0)
    : [next.pending];
  return {
    kind: 'do',
    option: { says: 'done', does: { kind: 'send', items: chosen.flatMap(throwItems) } },
  };
}

function grantAsk({ state }: LineContext): Doing {
  const ask = state.asks.find(({ free }) => free);
  if (ask !== undefined) return doIt('grant', ask.request as SessionInput);
  return tell(state.asks.length === 0 ? 'Nobody asks for anything.' : 'No ask is free yet.');
}

function clearAsAsked(context: LineContext, later: readonly string[]): Doing {
  const next = nextAct(context.state, pendingThrows(context, later));
  return next.kind === 'clear'
    ? doIt('clear', { do: 'train-cleared', train: next.train, block: next.block })
    : tell('Nobody was asked whether a block is clear.');
}

function takeBack({ recent }: LineContext): Doing {
  const last = lastRetractable(recent);
  return last === null
    ? tell('There is nothing to take back.')
    : doIt('take back', { do: 'retract', entry: last.entry, why: 'typed by mistake' });
}

function alarmSeen({ state }: LineContext): Doing {
  const alarm = state.alarms.find(({ seen }) => !seen);
  return alarm === undefined
    ? tell('No alarm is unseen.')
    : doIt('seen', { do: 'alarm-seen', alarm: alarm.entry });
}

function readBackRight({ state, recent }: LineContext): Doing {
  const waiting = readBackNow(state, recent);
  return waiting === null
    ? tell('Nothing waits to be read back.')
    : doIt('right', { do: 'acknowledge', authority: waiting.id });
}

function cabAct(context: LineContext, act: 'advance' | 'call', number: number): Doing {
  const cab = context.railroad.document.throttles[number - 1];
  if (cab === undefined) return tell(NO_CAB);
  if (act === 'call') return doIt(`${cab.name} calls`, { do: 'call', cab: cab.id });
  return doingOf(
    advanceable(context, cab.id),
    `${cab.name} has more than one train on its way:`,
    `No train of ${cab.name} has an authority.`,
  );
}

/** What was refused last, with its ways out; or what is next. */
const why: Doing = { kind: 'do', option: { says: 'why', does: { kind: 'why', about: null } } };

/**
 * What an act does now.
 *
 * @param later keys of the throws that were put off
 */
export function doingOfAct(act: ActName, context: LineContext, later: readonly string[]): Doing {
  const [, kind, number] = /^(advance|call)-(\d)$/.exec(act) ?? [];
  if (kind !== undefined) return cabAct(context, kind as 'advance' | 'call', Number(number));
  switch (act) {
    case 'throw-done':
      return throwsDone(context, later, false);
    case 'cab-throws-done':
      return throwsDone(context, later, true);
    case 'throw-later': {
      const next = nextAct(context.state, pendingThrows(context, later));
      return next.kind === 'throw'
        ? { kind: 'later', key: throwKey(next.pending.thrown) }
        : tell('No throw is next.');
    }
    case 'read-back':
      return readBackRight(context);
    case 'grant-ask':
      return grantAsk(context);
    case 'clear':
      return clearAsAsked(context, later);
    case 'retract':
      return takeBack(context);
    case 'alarm-seen':
      return alarmSeen(context);
    case 'why':
      return why;
    case 'say-again':
      return { kind: 'say-again' };
    case 'stop-all':
      return { kind: 'stop' };
    case 'lock':
      return { kind: 'lock' };
    default:
      return tell('Then the digit of the cab that calls.');
  }
}
