/** One line of a script: may it be now, what it does, and what it is answered. */

import { advance } from './advance.ts';
import { type Happening, nothing, raiseWrongThrottle, settleAlarms } from './alarms.ts';
import { type Done, type Entry, type Extra, fine, notNow } from './answer.ts';
import { follow } from './follow.ts';
import {
  end,
  grantLimits,
  grantMove,
  handOff,
  handOffReasons,
  isReadBack,
  keepAsk,
  limitsReasons,
  readBack,
} from './grants.ts';
import { put } from './knob-reports.ts';
import { blocksOfKnob, throwReasons } from './knobs.ts';
import { requestMove } from './moves.ts';
import { observed } from './observed.ts';
import { changeCab, placeTrain, releaseLimits, settle, settleOpen, takeOff } from './placing.ts';
import { addReason, inForce, type Line, type Reason, type State, type World } from './state.ts';
import { sure } from './sure.ts';
import { changeCabThrows, guardsFor, throwsFor } from './throws.ts';
import { mayBeNow } from './when.ts';

function turned(
  world: World,
  state: State,
  kind: string,
  id: string,
  to: string | boolean,
  happening: Happening,
): Done {
  const reasons = throwReasons(world, state, kind, id, to);
  if (reasons.length > 0) return { reasons };
  put(state, kind, id, to);
  happening.knobs.push(id);
  return fine;
}

function applySetting(world: World, state: State, line: Line, happening: Happening): Done {
  const setting = sure(world.doc.settings.find((one) => one.id === line.setting));
  const reasons: Reason[] = [];
  const each = (
    kind: string,
    order: readonly { id: string }[],
    values: Record<string, string | boolean>,
  ): void => {
    for (const id of Object.keys(values)) {
      if (!order.some((one) => one.id === id)) continue;
      for (const { code, about } of turned(world, state, kind, id, sure(values[id]), happening).reasons)
        addReason(reasons, code, ...about);
    }
  };
  each('selector', world.doc.selectors, setting.selectors);
  each('turnout', world.doc.nodes, setting.turnouts);
  each('toggle', world.doc.toggles, setting.toggles);
  return { reasons };
}

const OVERRIDABLE: Record<string, string[]> = {
  'request-move': ['block-disputed', 'train-too-long', 'overload', 'gridlock-ahead'],
  'place-train': ['block-disputed', 'train-too-long', 'overload', 'gridlock-ahead'],
  'turn-selector': ['block-owned', 'sweeps-live-position'],
};

function override(world: World, state: State, line: Line, happening: Happening): Done {
  const order: Line = { ...line.order, at: line.at };
  if (!mayBeNow(state, order)) return notNow();
  const plain = carryOut(world, structuredClone(state), order, nothing(), false);
  if (plain.reasons.length === 0) return carryOut(world, state, order, happening, false);
  const allowed = OVERRIDABLE[order.do] ?? [];
  const disputed = plain.reasons
    .filter(({ code }) => code === 'block-disputed')
    .map(({ about }) => sure(about[0]));
  if (allowed.includes('block-disputed'))
    for (const block of disputed) settleOpen(world, state, block, happening);
  const left = carryOut(world, structuredClone(state), order, nothing(), false).reasons;
  if (left.some(({ code }) => !allowed.includes(code))) return { reasons: left };
  return { ...carryOut(world, state, order, happening, true), reasons: [] };
}

function granted(world: World, state: State, id: string): Extra {
  const authority = sure(state.authorities.find((one) => one.id === id));
  const extra: Extra = { authority: id, throws: throwsFor(world, state, authority) };
  return authority.kind === 'move' ? { ...extra, guards: guardsFor(world, state, authority) } : extra;
}

/** Carries a line out on a state that may be thrown away if there are reasons. `force`: an override has allowed it. */
function carryOut(world: World, state: State, line: Line, happening: Happening, force: boolean): Done {
  const { train } = line;
  switch (line.do) {
    case 'open-session':
      state.session = 'making-up';
      state.alone = line.alone === true;
      return fine;
    case 'start':
    case 'resume':
      state.session = 'running';
      return fine;
    case 'stop-all':
      state.session = 'stopped';
      return fine;
    case 'end-session':
      state.session = 'ended';
      return fine;
    case 'assign-cab':
      state.persons[line.cab] = line.person;
      return fine;
    case 'place-train':
      return { reasons: placeTrain(world, state, line, happening, force) };
    case 'add-train':
      if (state.rolling[train]) return notNow(train);
      state.rolling[train] = { length: line.length, amps: line.amps };
      return fine;
    case 'take-off':
      return { reasons: takeOff(state, line) };
    case 'apply-setting':
      return applySetting(world, state, line, happening);
    case 'request-move': {
      const { reasons, plan } = requestMove(world, state, line);
      if (plan === null || (reasons.length > 0 && !force)) return { reasons };
      return { reasons: [], extra: granted(world, state, grantMove(state, line, plan).id) };
    }
    case 'grant-limits': {
      const reasons = limitsReasons(world, state, line);
      if (reasons.length > 0) return { reasons };
      return { reasons, extra: granted(world, state, grantLimits(state, line).id) };
    }
    case 'acknowledge': {
      const authority = state.authorities.find((one) => one.id === line.authority && inForce(one));
      if (!authority || isReadBack(authority)) return notNow(line.authority);
      readBack(authority);
      return fine;
    }
    case 'annul': {
      const authority = state.authorities.find((one) => one.id === line.authority && inForce(one));
      if (!authority || authority.kind === 'limits') return notNow(line.authority);
      const now = sure(state.trains[authority.train]);
      if (authority.state === 'running' && !now.stopped && !state.derailed.includes(authority.train))
        return notNow(authority.train);
      end(authority, 'annulled');
      return fine;
    }
    case 'withdraw':
      if (!state.asks.some((ask) => ask.train === train)) return notNow(train);
      state.asks = state.asks.filter((ask) => ask.train !== train);
      return fine;
    case 'hand-off': {
      const reasons = handOffReasons(world, state, line);
      if (reasons.length === 0) handOff(state, line);
      return { reasons };
    }
    case 'release-limits':
      return { reasons: releaseLimits(world, state, line) };
    case 'change-cab': {
      const reasons = changeCab(world, state, line);
      return reasons.length > 0
        ? { reasons }
        : { reasons, extra: { throws: changeCabThrows(world, state, train, line.cab) } };
    }
    case 'turn-selector': {
      if (!force) return turned(world, state, 'selector', line.selector, line.position, happening);
      put(state, 'selector', line.selector, line.position);
      happening.knobs.push(line.selector);
      raiseWrongThrottle(world, state, blocksOfKnob(world, line.selector), happening);
      return fine;
    }
    case 'throw-turnout':
      return turned(world, state, 'turnout', line.turnout, line.position, happening);
    case 'set-toggle':
      return turned(world, state, 'toggle', line.toggle, line.on, happening);
    case 'tag':
      if (!state.tags.includes(line.thing)) state.tags.push(line.thing);
      state.taggedBy[line.thing] = line.by;
      return fine;
    case 'untag':
      if (!state.tags.includes(line.thing)) return notNow(line.thing);
      if (![state.taggedBy[line.thing], 'dispatcher'].includes(line.by)) return notNow(line.thing);
      state.tags = state.tags.filter((thing) => thing !== line.thing);
      return fine;
    case 'settle':
      return { reasons: settle(world, state, line, happening) };
    case 'alarm-seen':
      return state.alarms.some((alarm) => alarm.line === line.alarm) ? fine : notNow(String(line.alarm));
    case 'override':
      return override(world, state, line, happening);
    case 'advance':
      return { reasons: advance(world, state, line, happening) };
    default:
      return observed(world, state, line, happening);
  }
}

/** Judges one line: the state after it, and its entry. */
export function judge(
  world: World,
  state: State,
  line: Line,
  number: number,
): { state: State; entry: Entry } {
  const head = { at: line.at, do: line.do };
  if (!mayBeNow(state, line))
    return { state, entry: { ...head, outcome: 'refused', reasons: notNow().reasons } };
  const next = structuredClone(state);
  const happening = nothing();
  const { reasons, extra } = carryOut(world, next, line, happening, false);
  if (reasons.length > 0) {
    const kept = structuredClone(state);
    if (line.do === 'request-move') keepAsk(kept, line, reasons);
    return { state: kept, entry: { ...head, outcome: 'refused', reasons } };
  }
  follow(world, next, happening.stopped);
  const alarms = settleAlarms(world, state, next, happening, number);
  return {
    state: next,
    entry: { ...head, outcome: alarms.length > 0 ? 'alarm' : 'done', reasons: alarms, ...extra },
  };
}
