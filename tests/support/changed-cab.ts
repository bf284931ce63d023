/** A train across gaps on one throttle gets another: which throttles feed the blocks under it after each hand movement. */
import { indexRailroad } from '../../shared-model/railroad/railroad.ts';
import { newEvening, take, worldOf } from '../../shared-model/session/evening.ts';
import { feedNow } from '../../shared-model/session/facts/feed.ts';
import { type SessionInput, sessionInput } from '../../shared-model/session/input.ts';
import { chanceOf } from './chance.ts';
import { randomRailroad, stoppingSpots } from './random-railroad.ts';

/**
 * Places a train somewhere, feeds all of it from its cab, changes its cab, and carries out the throws in order.
 *
 * @returns the throttles under the train after the change and after each throw; none where the train does not fit, or the change is refused
 */
export function changedCab(seed: number): readonly (readonly string[])[] {
  const chance = chanceOf(seed);
  const railroad = indexRailroad(randomRailroad(seed, 4 + (seed % 6)));
  let evening = newEvening(railroad);
  const say = (input: Record<string, unknown>) => {
    const parsed: SessionInput = sessionInput.parse(input);
    const taken = take(evening, { at: evening.state.at + 1, input: parsed });
    evening = taken.evening;
    return taken.event;
  };
  const train = chance.pick(railroad.document.trains);
  const [one, other] = [
    chance.pick(railroad.document.throttles).id,
    chance.pick(railroad.document.throttles).id,
  ];
  say({ do: 'open-session' });
  say({ do: 'assign-cab', cab: other, person: 'Noor' });
  const spot = chance.pick(stoppingSpots(railroad));
  if (say({ do: 'place-train', train: train.id, ...spot, cab: one }).outcome !== 'done') return [];
  const under = evening.state.trains[train.id]?.blocks ?? [];
  for (const { id, source } of railroad.document.blocks) {
    if ('selector' in source && under.includes(id))
      say({ do: 'selector-stands-at', selector: source.selector, position: one });
    if ('toggle' in source && under.includes(id))
      say({ do: 'toggle-stands-at', toggle: source.toggle, on: true });
  }
  const changed = say({ do: 'change-cab', train: train.id, cab: other });
  if (changed.outcome !== 'done') return [];
  const feeds = (): readonly string[] => [
    ...new Set(under.map((block) => feedNow(worldOf(evening), block)).filter((feed) => feed !== null)),
  ];
  const seen = [feeds()];
  for (const { id, to } of changed.throws ?? []) {
    say({ do: 'turn-selector', selector: id, position: to });
    seen.push(feeds());
  }
  return seen;
}
