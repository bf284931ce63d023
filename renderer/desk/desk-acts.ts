/** What each act of the Desk does at a moment of the evening. */
import type { ThrottleId, TrainId } from '../../shared-model/ids.ts';
import type { BatchItem } from '../../shared-model/session/batch.ts';
import { type Evening, takeBatch } from '../../shared-model/session/evening.ts';
import { authoritiesInForce } from '../../shared-model/session/facts/authorities.ts';
import type { SessionInput } from '../../shared-model/session/input.ts';
import { spokenDestination } from '../../shared-model/session/say.ts';
import type { ActName } from '../keys/acts.ts';
import { alarmMended, alarmSeen } from './alarm-acts.ts';
import { lastRetractable } from './entry-line/last-report.ts';
import { type LineContext, send } from './entry-line/reading.ts';
import { nextAct, pendingThrows } from './next-act.ts';
import { farOn, onwardKey, onwardOf, onwards } from './onward.ts';
import { type Doing, doingOf, ENDED, type Option, optionOf, PHASE_CHECK, tell } from './option.ts';
import { throwKey } from './pending-throw.ts';
import { givePlanned, plannedKey, plannedNext } from './plan-next.ts';
import { readBackNow } from './read-backs.ts';
import { shownNow } from './roll.ts';
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
  const next = nextAct(context, pending, later);
  if (next.kind !== 'throw') return tell('No throw is next.');
  const chosen = all
    ? pending.filter(({ cab, thrown }) => cab === next.pending.cab && thrown.waitsFor.length === 0)
    : [next.pending];
  return {
    kind: 'do',
    option: { says: 'done', does: { kind: 'send', items: chosen.flatMap(throwItems) } },
  };
}

/** The oldest ask that has become free; where there is none, the next order of the plan, or the way on as before of the train that came to its limit first. */
function grantAsk(context: LineContext, later: readonly string[]): Doing {
  const { asks } = context.state;
  const ask = asks.find(({ free }) => free);
  if (ask !== undefined) return doIt('grant', ask.request as SessionInput);
  const [planned] = plannedNext(context, later);
  if (planned !== undefined) return givePlanned(planned);
  const [onward] = onwards(context, later);
  if (onward !== undefined) return doIt('on as before', onward.request);
  return tell(asks.length === 0 ? 'Nobody asks for anything.' : 'No ask is free yet.');
}

/** Straight on for the train that came to its limit first, as far as it is free. */
function grantFar(context: LineContext, later: readonly string[]): Doing {
  const [onward] = onwards(context, later);
  const far = onward === undefined ? null : farOn(context, onward);
  return far === null ? tell('No train can go straight on.') : doIt('straight on', far);
}

/** The same for the train that the line names: its ask, free or not, or its way on; or straight on as far as it is free. */
export function grantTo(context: LineContext, train: TrainId, far = false): Doing {
  const ask = context.state.asks.find((one) => one.train === train);
  if (ask !== undefined) return doIt('grant', ask.request as SessionInput);
  const planned = plannedNext(context, []).find(({ order }) => order.train === train);
  if (planned !== undefined && !far) return givePlanned(planned);
  const onward = onwardOf(context, train);
  const name = context.state.trains[train]?.name ?? train;
  const request = onward === null ? null : far ? farOn(context, onward) : onward.request;
  return request === null
    ? tell(`${name} asks for nothing, and cannot go on from there.`)
    : doIt(far ? 'straight on' : 'on as before', request);
}

/** The read-back was right and the hands have done all that its train needs: the throws in their order, those that waited for others too. */
function readBackAndThrows({ railroad, state, recent }: LineContext): Doing {
  const waiting = readBackNow(state, recent);
  if (waiting === null) return tell('Nothing waits to be read back.');
  const items: BatchItem[] = [];
  let evening: Evening = { railroad, state, initial: state, events: [] };
  const add = (more: readonly BatchItem[]) => {
    items.push(...more);
    ({ evening } = takeBatch(evening, state.at, more));
  };
  add([{ input: { do: 'acknowledge', authority: waiting.id } }]);
  // Each throw is made once at most; those that wait become free by the ones before them.
  for (const made = new Set<string>(); ; ) {
    const now = { railroad, state: evening.state, recent: [...recent, ...evening.events] };
    const next = pendingThrows(now, []).find(
      ({ for: why, train, thrown }) =>
        why === 'way' &&
        train === waiting.authority.train &&
        thrown.waitsFor.length === 0 &&
        !made.has(throwKey(thrown)),
    );
    if (next === undefined) break;
    made.add(throwKey(next.thrown));
    add(throwItems(next));
  }
  return { kind: 'do', option: { says: 'right, and thrown', does: { kind: 'send', items } } };
}

function shown(context: LineContext): Doing {
  const inputs = shownNow(context);
  return inputs.length === 0 ? tell('Every knob was thrown or looked at.') : doIt('as shown', ...inputs);
}

/** Every knob as it is saved: alone the first setting at once (a display that is left running), else one is chosen. */
function setKnobs({ railroad, state }: LineContext): Doing {
  const options = railroad.document.settings.map(({ id, name }) =>
    option(`set: ${name}`, { do: 'apply-setting', setting: id }),
  );
  const [first] = options;
  if (first === undefined) return tell('No setting is saved: save one on the Drawing board.');
  return state.alone ? { kind: 'do', option: first } : { kind: 'choose', says: 'Which setting?', options };
}

function putOff(context: LineContext, later: readonly string[]): Doing {
  const next = nextAct(context, pendingThrows(context, later), later);
  if (next.kind === 'throw') return { kind: 'later', key: throwKey(next.pending.thrown) };
  if (next.kind === 'planned') return { kind: 'later', key: plannedKey(next.planned) };
  return next.kind === 'onward' ? { kind: 'later', key: onwardKey(next.onward) } : tell('No throw is next.');
}

function clearAsAsked(context: LineContext, later: readonly string[]): Doing {
  const next = nextAct(context, pendingThrows(context, later), later);
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

function readBackRight({ state, recent }: LineContext): Doing {
  const waiting = readBackNow(state, recent);
  return waiting === null
    ? tell('Nothing waits to be read back.')
    : doIt('right', { do: 'acknowledge', authority: waiting.id });
}

/** A train that is at its limit goes on as before: alone at once, since nobody is asked; else if the dispatcher says so. */
function goesOn(context: LineContext, later: readonly string[], cab: ThrottleId): readonly Option[] {
  const { railroad, state } = context;
  return onwards(context, later)
    .filter((onward) => onward.cab === cab)
    .map(({ train, request }) =>
      option(
        `${state.trains[train]?.name ?? train} on to ${spokenDestination(railroad, request.to)}`,
        request,
      ),
    );
}

function cabAct(
  context: LineContext,
  act: 'advance' | 'call',
  number: number,
  later: readonly string[],
): Doing {
  const cab = context.railroad.document.throttles[number - 1];
  if (cab === undefined) return tell(NO_CAB);
  if (act === 'call') return doIt(`${cab.name} calls`, { do: 'call', cab: cab.id });
  const running = advanceable(context, cab.id);
  const ways = running.length === 0 ? goesOn(context, later, cab.id) : [];
  if (ways.length > 0 && !context.state.alone)
    return { kind: 'choose', says: 'On as before?', options: ways };
  return doingOf(
    running.length === 0 ? ways : running,
    `${cab.name} has more than one train on its way:`,
    `No train of ${cab.name} has an authority.`,
  );
}

/** What was refused last, with its ways out; or what is next. */
const why: Doing = { kind: 'do', option: { says: 'why', does: { kind: 'why', about: null } } };

/** What still has a sense when the evening has ended: to read, and to hear again. */
const AFTER_THE_END: ReadonlySet<ActName> = new Set(['why', 'say-again', 'stop-all', 'phase-check', 'lock']);

/**
 * What an act does now.
 *
 * @param later keys of the throws that were put off
 */
export function doingOfAct(act: ActName, context: LineContext, later: readonly string[]): Doing {
  if (context.state.phase === 'ended' && !AFTER_THE_END.has(act)) return tell(ENDED);
  const [, kind, number] = /^(advance|call)-(\d)$/.exec(act) ?? [];
  if (kind !== undefined) return cabAct(context, kind as 'advance' | 'call', Number(number), later);
  switch (act) {
    case 'throw-done':
      return throwsDone(context, later, false);
    case 'cab-throws-done':
      return throwsDone(context, later, true);
    case 'throw-later':
      return putOff(context, later);
    case 'read-back-and-throws':
      return readBackAndThrows(context);
    case 'as-shown':
      return shown(context);
    case 'apply-setting':
      return setKnobs(context);
    case 'phase-check':
      return {
        kind: 'do',
        option: { says: 'measure the phase', does: { kind: 'go', address: PHASE_CHECK } },
      };
    case 'read-back':
      return readBackRight(context);
    case 'grant-ask':
      return grantAsk(context, later);
    case 'grant-far':
      return grantFar(context, later);
    case 'clear':
      return clearAsAsked(context, later);
    case 'retract':
      return takeBack(context);
    case 'alarm-seen':
      return alarmSeen(context);
    case 'alarm-mended':
      return alarmMended(context);
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
