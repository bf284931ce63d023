/** One judge for every input: what it does, or the reasons against it. */
import type { PlainOrder, SessionInput } from './input.ts';
import { isObservation, type Observation } from './input.ts';
import { phaseTakes } from './machines.ts';
import { advance } from './orders/advance.ts';
import { alarmSeen, setClock, stageOrder, tag, untag } from './orders/desk-orders.ts';
import { handOff } from './orders/hand-off.ts';
import { applySetting, throwToggle, throwTurnout, turnSelector } from './orders/knob-orders.ts';
import { grantLimits, releaseLimits } from './orders/limits-orders.ts';
import { acknowledge, annul, declare, requestMove, withdraw } from './orders/move-orders.ts';
import { override } from './orders/override.ts';
import { settle } from './orders/settle.ts';
import { addTrain, assignCab, changeCab, notNow, placeTrain, takeOff } from './orders/train-orders.ts';
import { couple, makeUp, pickUp, setOut } from './reports/car-reports.ts';
import { handleAtZero, selectorStandsAt, toggleStandsAt, turnoutStandsAt } from './reports/knob-reports.ts';
import { breakerReset, breakerTripped, phaseMeasured, supplyReplugged } from './reports/power-reports.ts';
import {
  derailed,
  rerailed,
  stalled,
  trainAt,
  trainCleared,
  trainEntered,
  trainStopped,
} from './reports/train-reports.ts';
import { done, type Ruling } from './ruling.ts';
import { type World, withRecord, withState } from './world.ts';

/** Whether an input fits the session's phase; while stopped, knobs go to off only. */
export function fitsPhase(world: World, input: SessionInput): boolean {
  const { phase } = world.state;
  if (!phaseTakes(phase, input.do)) return false;
  if (phase !== 'stopped') return input.do !== 'override' || phaseTakes(phase, input.order.do);
  if (input.do === 'turn-selector') return input.position === 'off';
  if (input.do === 'set-toggle') return !input.on;
  return input.do !== 'override' || fitsPhase(world, input.order);
}

function judgeObservation(world: World, input: Observation, at: number): Ruling {
  switch (input.do) {
    case 'train-entered':
      return trainEntered(world, input);
    case 'train-cleared':
      return trainCleared(world, input);
    case 'train-stopped':
      return trainStopped(world, input);
    case 'train-at':
      return trainAt(world, input);
    case 'stalled':
      return stalled(world, input);
    case 'derailed':
      return derailed(world, input);
    case 'rerailed':
      return rerailed(world, input);
    case 'set-out':
      return setOut(world, input);
    case 'pick-up':
      return pickUp(world, input);
    case 'couple':
      return couple(world, input);
    case 'make-up':
      return makeUp(world, input);
    case 'selector-stands-at':
      return selectorStandsAt(world, input);
    case 'turnout-stands-at':
      return turnoutStandsAt(world, input);
    case 'toggle-stands-at':
      return toggleStandsAt(world, input);
    case 'handle-at-zero':
      return handleAtZero(world, input);
    case 'call':
      return done(
        withRecord(world, 'cabs', input.cab, { calledAt: world.state.cabs[input.cab]?.calledAt ?? at }),
      );
    case 'stop-called':
      return done(withRecord(world, 'cabs', input.cab, { stopCalled: true }));
    case 'phase-measured':
      return phaseMeasured(world, input, at);
    case 'supply-replugged':
      return supplyReplugged(world, input);
    case 'breaker-tripped':
      return breakerTripped(world, input);
    case 'breaker-reset':
      return breakerReset(world, input);
    case 'note':
      return done(world);
  }
}

function judgeOrder(world: World, input: PlainOrder, at: number): Ruling {
  switch (input.do) {
    case 'open-session':
    case 'start':
    case 'resume':
    case 'stop-all':
    case 'end-session':
      return stageOrder(world, input, at);
    case 'assign-cab':
      return assignCab(world, input);
    case 'place-train':
      return placeTrain(world, input);
    case 'add-train':
      return addTrain(world, input);
    case 'take-off':
      return takeOff(world, input);
    case 'apply-setting':
      return applySetting(world, input);
    case 'request-move':
      return requestMove(world, input);
    case 'acknowledge':
      return acknowledge(world, input);
    case 'annul':
      return annul(world, input);
    case 'withdraw':
      return withdraw(world, input);
    case 'declare':
      return declare(world, input);
    case 'hand-off':
      return handOff(world, input);
    case 'grant-limits':
      return grantLimits(world, input);
    case 'release-limits':
      return releaseLimits(world, input);
    case 'change-cab':
      return changeCab(world, input);
    case 'turn-selector':
      return turnSelector(world, input);
    case 'throw-turnout':
      return throwTurnout(world, input);
    case 'set-toggle':
      return throwToggle(world, input);
    case 'tag':
      return tag(world, input, at);
    case 'untag':
      return untag(world, input);
    case 'settle':
      return settle(world, input);
    case 'alarm-seen':
      return alarmSeen(world, input);
    case 'set-clock':
      return setClock(world, input, at);
    case 'advance':
      return advance(world, input);
    case 'retract':
      return notNow(world, String(input.entry));
  }
}

/** Judges any input but a retraction, which needs the log (see `retract.ts`); inside an override a retraction is not now. */
export function judge(before: World, input: SessionInput, at: number): Ruling {
  const world = withState(before, { at });
  if (!fitsPhase(world, input)) return notNow(world);
  if (isObservation(input)) return judgeObservation(world, input, at);
  if (input.do === 'override') return override(world, input, (inner, order) => judgeOrder(inner, order, at));
  return judgeOrder(world, input, at);
}
