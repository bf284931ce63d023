/** Random evenings: a driver that mostly does what a dispatcher would do next, and now and then anything at all. */
import type { Railroad } from '../../shared-model/railroad/railroad.ts';
import { type Evening, newEvening, problemWith, take, worldOf } from '../../shared-model/session/evening.ts';
import { authoritiesInForce } from '../../shared-model/session/facts/authorities.ts';
import { type SessionInput, sessionInput } from '../../shared-model/session/input.ts';
import { throwsFor } from '../../shared-model/session/throws.ts';
import { type Chance, chanceOf } from './chance.ts';
import { stoppingSpots } from './random-railroad.ts';

type Raw = { readonly do: string } & Record<string, unknown>;

const PEOPLE = ['Avery', 'Blake', 'Kim', 'Noor'];

/** What a sensible dispatcher might say next. */
function sensible(chance: Chance, evening: Evening): Raw {
  const { state, railroad } = evening;
  const trains = Object.keys(state.trains);
  const placed = trains.filter((id) => state.trains[id as never]?.placed);
  const inForce = authoritiesInForce(state);
  const blocks = railroad.document.blocks.map(({ id }) => id);
  const train = placed.length > 0 ? chance.pick(placed) : undefined;
  const held = inForce.length > 0 ? chance.pick(inForce) : undefined;
  const kind = chance.between(1, 100);
  if (held !== undefined && held.authority.state === 'granted' && kind <= 40)
    return { do: 'acknowledge', authority: held.id };
  if (held !== undefined && kind <= 60) {
    const thrown = throwsFor(worldOf(evening), held.authority.train)[0];
    if (thrown !== undefined && chance.inHundred(70)) {
      if (thrown.kind === 'selector')
        return { do: 'turn-selector', selector: thrown.id, position: thrown.to };
      if (thrown.kind === 'turnout') return { do: 'throw-turnout', turnout: thrown.id, position: thrown.to };
      return { do: 'set-toggle', toggle: thrown.id, on: thrown.to };
    }
    return { do: 'advance', train: held.authority.train };
  }
  if (held !== undefined && kind <= 70) {
    const next = held.authority.legs[held.authority.at + 1];
    if (next !== undefined) return { do: 'train-entered', train: held.authority.train, block: next.block };
    const behind = state.trains[held.authority.train]?.blocks.at(-1);
    if (behind !== undefined) return { do: 'train-cleared', train: held.authority.train, block: behind };
  }
  if (train !== undefined)
    return { do: 'request-move', train, to: chance.pick(blocks), overhang: chance.inHundred(60) };
  const spot = chance.pick(stoppingSpots(railroad));
  const cab = chance.pick(railroad.document.throttles).id;
  return { do: 'place-train', train: chance.pick(trains), edge: spot.edge, toward: spot.toward, cab };
}

/** Any input at all, of any verb, with names that exist. */
function anything(chance: Chance, evening: Evening): Raw {
  const { state, railroad } = evening;
  const { document } = railroad;
  const train = () => chance.pick(Object.keys(state.trains));
  const cab = () => chance.pick(document.throttles).id;
  const block = () => chance.pick(document.blocks).id;
  const spot = () => chance.pick(stoppingSpots(railroad));
  const selector = () =>
    chance.pick<{ readonly id: string; readonly positions: readonly (string | null)[] }>(
      document.selectors.length > 0 ? document.selectors : [{ id: 'none', positions: ['off'] }],
    );
  const thrown = Object.keys(state.turnouts);
  const position = () => (chance.inHundred(50) ? 'normal' : 'reverse');
  const toggles = Object.keys(state.toggles);
  const disputed = document.blocks.filter(({ id }) => state.blocks[id]?.state === 'disputed');
  const tagged = state.tags.map(({ thing }) => thing);
  const cut = `cut${chance.between(1, 2)}`;
  const dial = selector();
  const places = document.places.map(({ id }) => id);
  const choices: Raw[] = [
    { do: 'assign-cab', cab: cab(), person: chance.inHundred(85) ? chance.pick(PEOPLE) : null },
    { do: 'assign-cab', cab: cab(), person: chance.pick(PEOPLE) },
    { do: 'take-off', train: train() },
    { do: 'place-train', train: train(), ...spot(), cab: cab() },
    { do: 'place-train', train: train(), ...spot(), cab: cab() },
    { do: 'train-entered', train: train(), block: block() },
    { do: 'train-cleared', train: train(), block: block() },
    { do: 'train-stopped', train: train() },
    { do: 'train-at', train: train(), ...spot() },
    { do: 'derailed', train: train() },
    { do: 'rerailed', train: train() },
    { do: 'stalled', train: train() },
    { do: 'set-out', train: train(), cut, length: chance.between(100, 900), ...spot() },
    { do: 'pick-up', train: train(), cut },
    { do: 'couple', train: train(), other: train() },
    { do: 'make-up', train: train(), length: chance.between(400, 2000), amps: chance.between(1, 4) },
    { do: 'selector-stands-at', selector: dial.id, position: chance.pick(dial.positions) ?? 'off' },
    { do: 'turn-selector', selector: dial.id, position: chance.pick(dial.positions) ?? 'off' },
    { do: 'turn-selector', selector: dial.id, position: 'off' },
    { do: 'handle-at-zero', cab: cab() },
    { do: 'call', cab: cab() },
    { do: 'grant-limits', train: train(), blocks: [block(), block()] },
    { do: 'release-limits', train: train(), ...spot() },
    { do: 'change-cab', train: train(), cab: cab() },
    { do: 'hand-off', train: train(), block: block(), toCab: cab() },
    { do: 'annul', authority: `a${chance.between(1, Math.max(1, state.granted))}`, why: 'changed' },
    { do: 'declare', train: train(), to: block() },
    { do: 'withdraw', train: train() },
    { do: 'tag', thing: chance.inHundred(50) ? dial.id : block(), why: 'loose', by: 'Kim' },
    { do: 'untag', thing: tagged.length > 0 ? chance.pick(tagged) : block(), by: 'Kim' },
    { do: 'supply-replugged', supply: chance.pick(document.supplies).id },
    { do: 'stop-all', why: 'look', kind: 'break' },
    { do: 'resume' },
    { do: 'resume' },
    { do: 'advance', train: train() },
    { do: 'note', text: 'quiet' },
    { do: 'request-move', train: train(), to: places.length > 0 ? chance.pick(places) : block() },
    {
      do: 'override',
      why: 'must',
      order: { do: 'request-move', train: train(), to: block(), overhang: true },
    },
    { do: 'retract', entry: Math.max(1, state.entries - chance.between(0, 3)), why: 'typed wrong' },
    { do: 'retract', entry: Math.max(1, state.entries), why: 'typed wrong' },
  ];
  if (thrown.length > 0) {
    choices.push({ do: 'throw-turnout', turnout: chance.pick(thrown), position: position() });
    choices.push({ do: 'turnout-stands-at', turnout: chance.pick(thrown), position: position() });
  }
  if (toggles.length > 0) {
    choices.push({ do: 'set-toggle', toggle: chance.pick(toggles), on: chance.inHundred(60) });
    choices.push({ do: 'toggle-stands-at', toggle: chance.pick(toggles), on: chance.inHundred(60) });
  }
  if (disputed.length > 0) {
    const settled = chance.pick(disputed).id;
    for (let more = 0; more < 6; more += 1)
      choices.push(
        chance.inHundred(50)
          ? { do: 'settle', block: settled, state: 'open' }
          : { do: 'settle', block: settled, state: 'occupied', train: train() },
      );
  }
  if (document.supplies.length > 1) {
    const [a, b] = document.supplies;
    if (a !== undefined && b !== undefined)
      choices.push({
        do: 'phase-measured',
        a: a.id,
        b: b.id,
        voltsA: 18,
        voltsB: 18,
        voltsAcross: chance.inHundred(70) ? 0.3 : 36,
      });
  }
  return chance.pick(choices);
}

/** One evening of `length` inputs on a railroad, the same for the same seed. */
export function randomEvening(
  railroad: Railroad,
  seed: number,
  length: number,
  watch: (before: Evening, after: Evening) => void = () => undefined,
): Evening {
  const chance = chanceOf(seed);
  let evening = newEvening(railroad);
  let at = 0;
  const say = (raw: Raw): void => {
    const parsed = sessionInput.safeParse(raw);
    if (!parsed.success) throw new Error(`${JSON.stringify(raw)}: ${parsed.error.message}`);
    const input: SessionInput = parsed.data;
    if (problemWith(railroad, evening.state, input) !== null) return;
    at += chance.between(1, 20);
    const before = evening;
    evening = take(evening, { at, input }).evening;
    watch(before, evening);
  };
  say({ do: 'open-session', alone: chance.inHundred(15) });
  for (const { id } of railroad.document.throttles)
    say({ do: 'assign-cab', cab: id, person: chance.pick(PEOPLE) });
  for (const id of Object.keys(evening.state.trains)) {
    const spot = chance.pick(stoppingSpots(railroad));
    const cab = chance.pick(railroad.document.throttles).id;
    say({ do: 'place-train', train: id, edge: spot.edge, toward: spot.toward, cab });
  }
  say({ do: 'start' });
  for (let count = 0; count < length; count += 1)
    say(chance.inHundred(65) ? sensible(chance, evening) : anything(chance, evening));
  return evening;
}
