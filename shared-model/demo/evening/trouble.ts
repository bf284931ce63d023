/** After the break: what goes wrong on such an evening, and how everybody gets home. */
import type { People } from './opening.ts';
import { type Part, type Stage, say } from './stage.ts';

export function* troubleAndHome(stage: Stage, people: People): Part {
  yield* say(stage, { do: 'breaker-tripped', supply: 'north' }, 20);
  yield* say(stage, { do: 'breaker-reset', supply: 'north' }, 20);
  yield* say(stage, { do: 'note', text: `${people.first} sweeps up.` });
  yield* say(stage, { do: 'end-session' });
}
