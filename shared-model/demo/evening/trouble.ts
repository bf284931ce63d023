/** After the break: what goes wrong on such an evening, and the long freight that goes home to the yard. */
import { order, runOut } from './crew.ts';
import type { People } from './opening.ts';
import { type Part, type Stage, say, sayAll } from './stage.ts';

/** A breaker trips under a running train; it is found, reset, and the train inches on. */
function* breaker(stage: Stage): Part {
  yield* order(stage, 't18', 'e5');
  yield* say(stage, { do: 'advance', train: 't18' }, 8);
  yield* sayAll(
    stage,
    [
      { do: 'breaker-tripped', supply: 'north' },
      { do: 'alarm-seen', alarm: stage.inputs.length + 1 },
      { do: 'stalled', train: 't18' },
      { do: 'breaker-reset', supply: 'north' },
    ],
    15,
  );
  yield* runOut(stage, 't18', 20);
}

/** The throttle of cab 2 dies under No. 18: its train changes cabs until a spare is plugged in. */
function* failedThrottle(stage: Stage, people: People): Part {
  yield* say(stage, { do: 'call', cab: '2' });
  yield* say(stage, { do: 'stalled', train: 't18' });
  yield* say(stage, { do: 'tag', thing: '2', why: 'throttle is dead', by: people.dispatcher }, 10);
  yield* say(stage, { do: 'request-move', train: 't18', to: 'e6' });
  yield* say(stage, { do: 'change-cab', train: 't18', cab: '1' });
  yield* say(stage, { do: 'turn-selector', selector: 'K2', position: 'off' });
  yield* say(stage, { do: 'turn-selector', selector: 'K2', position: '1' });
  yield* say(stage, { do: 'note', text: 'A spare throttle is plugged in for cab 2.' }, 60);
  yield* say(stage, { do: 'untag', thing: '2', by: people.dispatcher });
  yield* say(stage, { do: 'turn-selector', selector: 'K2', position: 'off' });
}

/** No. 12 leaves the rails on the curve; it is put back and its block settled. */
function* derailment(stage: Stage): Part {
  yield* order(stage, 't12', 'e13');
  yield* runOut(stage, 't12', 20);
  yield* say(stage, { do: 'derailed', train: 't12' }, 10);
  yield* say(stage, { do: 'stop-called', cab: '3' }, 40);
  yield* say(stage, { do: 'rerailed', train: 't12' }, 10);
  yield* say(stage, { do: 'settle', block: 'B6', state: 'occupied', train: 't12' });
  yield* order(stage, 't12', 'e15');
  yield* runOut(stage, 't12', 20);
}

/** A report that cannot be true leaves a block in dispute until it is settled as empty. */
function* wrongReport(stage: Stage): Part {
  yield* say(stage, { do: 'train-entered', train: 't24', block: 'B8' });
  yield* order(stage, 't12', 'e17');
  yield* say(stage, { do: 'settle', block: 'B8', state: 'open' });
  yield* order(stage, 't12', 'e17');
  yield* runOut(stage, 't12', 20);
}

/** No. 7 goes home to the yard: another supply, a lead that is wired straight, and so a measurement and a hand-off. */
function* home(stage: Stage): Part {
  yield* order(stage, 't7', 'B14');
  yield* say(stage, {
    do: 'phase-measured',
    a: 'north',
    b: 'south',
    voltsA: 18,
    voltsB: 18,
    voltsAcross: 0.4,
  });
  yield* order(stage, 't7', 'B14');
  yield* say(stage, { do: 'hand-off', train: 't7', block: 'B11', toCab: '4' });
  yield* order(stage, 't7', 'B14');
  yield* runOut(stage, 't7', 20);
}

export function* trouble(stage: Stage, people: People): Part {
  yield* breaker(stage);
  yield* failedThrottle(stage, people);
  yield* derailment(stage);
  yield* wrongReport(stage);
  yield* home(stage);
}
