/** What an observation changes: it is never refused, but for cars set out or taken and engines coupled. */
import type { Happening } from './alarms.ts';
import { type Done, fine } from './answer.ts';
import { couple, pickUp, setOut } from './cars.ts';
import { report } from './knob-reports.ts';
import { verdictOf } from './phase.ts';
import { happened, trainAt, trainCleared, trainEntered } from './reports.ts';
import { addReason, type Line, type State, type World } from './state.ts';

export function observed(world: World, state: State, line: Line, happening: Happening): Done {
  switch (line.do) {
    case 'train-entered':
      trainEntered(world, state, line, happening);
      return fine;
    case 'train-cleared':
      trainCleared(world, state, line, happening);
      return fine;
    case 'train-at':
      trainAt(world, state, line, happening);
      return fine;
    case 'train-stopped':
    case 'stalled':
    case 'derailed':
    case 'rerailed':
      happened(world, state, line, happening);
      return fine;
    case 'set-out':
      return { reasons: setOut(world, state, line, happening) };
    case 'pick-up':
      return { reasons: pickUp(world, state, line, happening) };
    case 'couple':
      return { reasons: couple(world, state, line, happening) };
    case 'make-up':
      happening.reported.push(line.train);
      state.rolling[line.train] = { length: line.length, amps: line.amps };
      return fine;
    case 'selector-stands-at':
      report(world, state, 'selector', line.selector, line.position, happening);
      return fine;
    case 'turnout-stands-at':
      report(world, state, 'turnout', line.turnout, line.position, happening);
      return fine;
    case 'toggle-stands-at':
      report(world, state, 'toggle', line.toggle, line.on, happening);
      return fine;
    case 'handle-at-zero':
      if (!state.zero.includes(line.cab)) state.zero.push(line.cab);
      return fine;
    case 'phase-measured': {
      happening.phaseAsked = true;
      const others = state.checks.filter(
        ({ a, b }) => !((a === line.a && b === line.b) || (a === line.b && b === line.a)),
      );
      const verdict = verdictOf(line.voltsA, line.voltsB, line.voltsAcross);
      state.checks = [...others, { a: line.a, b: line.b, verdict }];
      return fine;
    }
    case 'supply-replugged':
      happening.phaseAsked = true;
      state.checks = state.checks.filter(({ a, b }) => a !== line.supply && b !== line.supply);
      return fine;
    case 'breaker-tripped':
      addReason(happening.raised, 'breaker', line.supply);
      return fine;
    case 'breaker-reset':
      happening.reset.push(line.supply);
      return fine;
    default:
      return fine;
  }
}
