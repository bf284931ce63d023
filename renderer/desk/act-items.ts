/** What each act of the Desk sends. */
import type { ThrottleId } from '../../shared-model/ids.ts';
import type { BatchItem } from '../../shared-model/session/batch.ts';
import { authoritiesInForce } from '../../shared-model/session/facts/authorities.ts';
import type { SessionInput } from '../../shared-model/session/input.ts';
import type { Throw } from '../../shared-model/session/state.ts';
import type { ActName } from '../keys/acts.ts';
import type { DeskSource } from './desk-source.ts';
import { confirmed } from './entry-line/meaning.ts';
import { waitingReadBack } from './entry-line/word-lines.ts';
import type { NextAct, PendingThrow } from './next-act.ts';

/** The order that says a throw is done. */
export function throwInput({ kind, id, to }: Throw): SessionInput {
  if (kind === 'selector') return { do: 'turn-selector', selector: id as never, position: to as never };
  if (kind === 'turnout') return { do: 'throw-turnout', turnout: id as never, position: to as never };
  return { do: 'set-toggle', toggle: id as never, on: to === true };
}

export type ActAnswer =
  | { readonly kind: 'send'; readonly items: readonly BatchItem[] }
  | { readonly kind: 'later'; readonly id: string }
  | { readonly kind: 'why' }
  | { readonly kind: 'again' }
  | { readonly kind: 'stop' }
  | { readonly kind: 'nothing'; readonly says: string };

const send = (...inputs: readonly SessionInput[]): ActAnswer => ({
  kind: 'send',
  items: inputs.map((input) => ({ input })),
});
const nothing = (says: string): ActAnswer => ({ kind: 'nothing', says });

export interface DeskNow {
  readonly source: Pick<DeskSource, 'railroad' | 'state' | 'recent'>;
  readonly pending: readonly PendingThrow[];
  readonly next: NextAct;
}

function advanceCab({ source }: DeskNow, cab: ThrottleId | undefined): ActAnswer {
  if (cab === undefined) return nothing('There is no such cab on this railroad.');
  const held = authoritiesInForce(source.state).filter(
    ({ authority }) => authority.kind === 'move' && source.state.trains[authority.train]?.cab === cab,
  );
  const chosen = held.find(({ authority }) => authority.state === 'running') ?? held[0];
  if (chosen === undefined) return nothing('No train of that cab has an authority.');
  return send({ do: 'advance', train: chosen.authority.train });
}

function doneThrows(now: DeskNow, all: boolean): ActAnswer {
  const { next, pending } = now;
  if (next.kind !== 'throw') return nothing('No throw is next.');
  const chosen = all
    ? pending.filter(({ cab, thrown }) => cab === next.pending.cab && thrown.waitsFor.length === 0)
    : [next.pending];
  const list = chosen.length === 0 ? [next.pending] : chosen;
  return { kind: 'send', items: list.map(({ thrown }) => confirmed(throwInput(thrown))) };
}

/** The last report or order that may be taken back. */
function lastRetractable({ source }: DeskNow): ActAnswer {
  const gone = new Set(source.recent.flatMap(({ input }) => (input.do === 'retract' ? [input.entry] : [])));
  const last = [...source.recent].reverse().find(({ entry, input, outcome }) => {
    const order = [
      'place-train',
      'turn-selector',
      'throw-turnout',
      'set-toggle',
      'declare',
      'tag',
      'untag',
      'settle',
    ];
    const observed =
      /^(train-|selector-|turnout-|toggle-|stalled|derailed|rerailed|set-out|pick-up|make-up|handle|call|phase|supply|breaker|note)/;
    return outcome !== 'refused' && !gone.has(entry) && (order.includes(input.do) || observed.test(input.do));
  });
  return last === undefined
    ? nothing('There is nothing to take back.')
    : send({ do: 'retract', entry: last.entry, why: 'typed by mistake' });
}

/** What an act does now. */
export function actAnswer(act: ActName, now: DeskNow): ActAnswer {
  const { source, next } = now;
  const throttles = source.railroad.document.throttles;
  const numbered = /^(advance|call)-(\d)$/.exec(act);
  if (numbered !== null) {
    const cab = throttles[Number(numbered[2]) - 1]?.id;
    if (numbered[1] === 'advance') return advanceCab(now, cab);
    return cab === undefined ? nothing('There is no such cab on this railroad.') : send({ do: 'call', cab });
  }
  switch (act) {
    case 'throw-done':
      return doneThrows(now, false);
    case 'cab-throws-done':
      return doneThrows(now, true);
    case 'read-back': {
      const waiting = waitingReadBack(source);
      return waiting === undefined
        ? nothing('Nothing waits to be read back.')
        : send({ do: 'acknowledge', authority: waiting.id });
    }
    case 'grant-ask': {
      const ask = source.state.asks.find(({ free }) => free);
      return ask === undefined ? nothing('No ask is free.') : send(ask.request);
    }
    case 'throw-later':
      return next.kind === 'throw'
        ? { kind: 'later', id: String(next.pending.thrown.id) }
        : nothing('No throw is next.');
    case 'clear':
      return next.kind === 'clear'
        ? send({ do: 'train-cleared', train: next.train, block: next.block })
        : nothing('Nobody was asked whether a block is clear.');
    case 'retract':
      return lastRetractable(now);
    case 'alarm-seen': {
      const alarm = source.state.alarms.find(({ seen }) => !seen);
      return alarm === undefined
        ? nothing('No alarm is unseen.')
        : send({ do: 'alarm-seen', alarm: alarm.entry });
    }
    case 'why':
      return { kind: 'why' };
    case 'say-again':
      return { kind: 'again' };
    case 'stop-all':
      return { kind: 'stop' };
    default:
      return nothing('Then the digit of the cab that calls.');
  }
}
