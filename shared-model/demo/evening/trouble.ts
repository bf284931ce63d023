/** After the break: what goes wrong on such an evening, and the long freight that goes home to the yard. */
import { order, runOut } from './crew.ts';
import { type Part, refusedThen, type Stage, say, sayAll } from './stage.ts';

/** A breaker trips under a running train; it is found, reset, and the train inches on. */
function* breaker(stage: Stage): Part {
  yield* order(stage, 't18', 'e5', {}, 2);
  yield* say(stage, { do: 'advance', train: 't18' }, 8);
  yield* sayAll(
    stage,
    [
      { do: 'breaker-tripped', supply: 'north' },
      { do: 'alarm-seen', alarm: stage.inputs.length + 1 },
      { do: 'breaker-reset', supply: 'north' },
    ],
    15,
  );
  yield* runOut(stage, 't18', 20);
}

/** The throttle of cab 2 dies under No. 18: its train changes cabs, and a spare is plugged in. */
function* failedThrottle(stage: Stage): Part {
  yield* say(stage, { do: 'call', cab: '2' });
  yield* say(stage, { do: 'tag', thing: '2', why: 'dead', by: 'dispatcher' }, 10);
  yield* say(stage, { do: 'request-move', train: 't18', to: 'e6' }, 4, 5);
  yield* say(stage, { do: 'change-cab', train: 't18', cab: '1' });
  yield* say(stage, { do: 'turn-selector', selector: 'K2', position: 'off' }, 4, 1);
  yield* say(stage, { do: 'turn-selector', selector: 'K2', position: '1' }, 4, 1);
  yield* say(stage, { do: 'untag', thing: '2', by: 'dispatcher' });
  yield* say(stage, { do: 'turn-selector', selector: 'K2', position: 'off' }, 4, 3);
}

/** No. 12 leaves the rails by the creek; it is put back, its block settled, and it goes on. */
export function* derailment(stage: Stage): Part {
  yield* order(stage, 't12', 'e17', {}, 1);
  yield* say(stage, { do: 'advance', train: 't12' }, 20);
  yield* say(stage, { do: 'derailed', train: 't12' }, 40);
  yield* say(stage, { do: 'rerailed', train: 't12' }, 10);
  yield* say(stage, { do: 'settle', block: 'B6', state: 'occupied', train: 't12' });
  yield* say(stage, { do: 'settle', block: 'B9', state: 'open' });
  yield* runOut(stage, 't12', 20);
}

/** No. 7 goes home to the yard: another supply, a lead that is wired straight, and so a measurement and a hand-off. */
function* home(stage: Stage): Part {
  yield* order(stage, 't7', 'B14', {}, 5);
  yield* say(stage, {
    do: 'phase-measured',
    a: 'north',
    b: 'south',
    voltsA: 18,
    voltsB: 18,
    voltsAcross: 0.4,
  });
  const toYard = { do: 'request-move', train: 't7', to: 'B14' } as const;
  yield* refusedThen(stage, toYard, 5, { do: 'hand-off', train: 't7', block: 'B11', toCab: '4' });
  yield* order(stage, 't7', 'B14', {}, 0);
  yield* runOut(stage, 't7', 20);
}

/** With cabs 1 and 2, while No. 12 has the inner oval to itself. */
export function* troubleInTheNorth(stage: Stage): Part {
  yield* breaker(stage);
  yield* failedThrottle(stage);
  yield* home(stage);
  yield* say(stage, { do: 'call', cab: '1' }, 4, 4);
  yield* order(stage, 't18', 'e9', {}, 1);
}
