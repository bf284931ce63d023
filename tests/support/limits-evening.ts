/** Evenings full of yard work, made by chance: limits over the blocks that a train stands in and their neighbours, and moves of the others. */
import type { RailroadDocument } from '../../shared-model/railroad/document.ts';
import { indexRailroad } from '../../shared-model/railroad/railroad.ts';
import { type Evening, newEvening, problemWith, take } from '../../shared-model/session/evening.ts';
import { authoritiesInForce } from '../../shared-model/session/facts/authorities.ts';
import { gapsBetween } from '../../shared-model/session/facts/standing.ts';
import { sessionInput } from '../../shared-model/session/input.ts';
import type { Line } from '../proofs/independent/state.ts';
import { type Chance, chanceOf } from './chance.ts';
import { stoppingSpots } from './random-railroad.ts';

function next(chance: Chance, { railroad, state }: Evening): { do: string; [field: string]: unknown } {
  const { document } = railroad;
  const placed = document.trains.map(({ id }) => id).filter((id) => state.trains[id]?.placed);
  const train = placed.length > 0 ? chance.pick(placed) : chance.pick(document.trains).id;
  const own = state.trains[train]?.blocks ?? [];
  const near = document.blocks
    .map(({ id }) => id)
    .filter((id) => own.some((block) => gapsBetween(railroad, block, id).length > 0));
  const held = authoritiesInForce(state);
  const limits = held.filter(({ authority }) => authority.kind === 'limits');
  const waiting = held.find(({ authority }) => authority.state === 'granted');
  const spot = chance.pick(stoppingSpots(railroad));
  const cab = chance.pick(document.throttles).id;
  const some = [...own, ...near, ...document.blocks.map(({ id }) => id)];
  if (placed.length < 2) return { do: 'place-train', train: chance.pick(document.trains).id, ...spot, cab };
  if (waiting !== undefined && chance.inHundred(60)) return { do: 'acknowledge', authority: waiting.id };
  const worked = limits.length > 0 ? chance.pick(limits) : undefined;
  const kind = chance.between(1, 100);
  if (kind <= 20 && own.length > 0)
    return {
      do: 'grant-limits',
      train,
      blocks: [...own.slice(0, 2), ...near.slice(0, chance.between(1, 2))],
    };
  if (kind <= 40) {
    const root = chance.pick(document.selectors);
    return { do: 'turn-selector', selector: root.id, position: state.trains[train]?.cab ?? 'off' };
  }
  const [toggle] = document.toggles;
  if (kind <= 50 && toggle !== undefined)
    return { do: 'set-toggle', toggle: chance.pick(document.toggles).id, on: chance.inHundred(70) };
  if (kind <= 60) return { do: 'request-move', train, to: chance.pick(some), overhang: true };
  if (kind <= 70) return { do: 'train-entered', train, block: chance.pick(some) };
  if (kind <= 75) return { do: 'train-cleared', train, block: chance.pick(some) };
  if (kind <= 80) return { do: 'train-at', train, ...spot };
  if (kind <= 88 && worked !== undefined)
    return { do: 'release-limits', train: worked.authority.train, ...spot };
  if (kind <= 91) return { do: 'set-out', train, cut: `c${state.entries}`, length: 100, ...spot };
  const [cut] = Object.keys(state.cuts);
  if (kind <= 94 && cut !== undefined) return { do: 'pick-up', train, cut };
  const [disputed] = document.blocks.filter(({ id }) => state.blocks[id]?.state === 'disputed');
  if (disputed !== undefined && chance.inHundred(70))
    return chance.inHundred(50)
      ? { do: 'settle', block: disputed.id, state: 'open' }
      : { do: 'settle', block: disputed.id, state: 'occupied', train };
  return { do: 'advance', train };
}

/** The lines of such an evening; every name in them exists when it is said. */
export function limitsEvening(document: RailroadDocument, seed: number, lines: number): readonly Line[] {
  const chance = chanceOf(seed);
  const script: Line[] = [];
  let evening = newEvening(indexRailroad(document));
  const say = (said: { do: string; [field: string]: unknown }): void => {
    const input = sessionInput.parse(said);
    const naming = input.do === 'set-out' ? null : problemWith(evening.railroad, evening.state, input);
    if (naming !== null) return;
    const at = script.length;
    script.push({ at, ...said });
    evening = take(evening, { at, input }).evening;
  };
  say({ do: 'open-session' });
  for (const { id } of document.throttles) say({ do: 'assign-cab', cab: id, person: `Person ${id}` });
  say({ do: 'start' });
  while (script.length < lines) say(next(chance, evening));
  return script;
}
