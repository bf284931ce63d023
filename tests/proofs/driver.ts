/** A dispatcher by chance: it looks at the second implementation's state and mostly proposes what makes sense, with mistakes of every kind. */
import type { Chance } from '../support/chance.ts';
import type { Evening } from './independent/rehearse.ts';
import { ahead, inForce, type Line, placed, type World } from './independent/state.ts';
import { throwsFor } from './independent/throws.ts';
import { isStop, passages, type Spot } from './independent/track.ts';
import { OBSERVATIONS } from './independent/when.ts';

type Proposal = Omit<Line, 'at'> & { do: string };

const PEOPLE = ['Avery', 'Blake', 'Kim', 'Noor'];

/** Everything that a proposal may name. */
class Names {
  private readonly chance: Chance;
  private readonly world: World;
  private readonly evening: Evening;

  constructor(chance: Chance, world: World, evening: Evening) {
    this.chance = chance;
    this.world = world;
    this.evening = evening;
  }

  pick<T>(list: readonly T[]): T | undefined {
    return list.length === 0 ? undefined : this.chance.pick(list);
  }

  train(): string {
    const { rolling } = this.evening.state;
    return this.chance.pick(Object.keys(rolling));
  }

  placed(): string {
    return this.pick(placed(this.evening.state)) ?? this.train();
  }

  cut(): string | undefined {
    return this.pick(Object.keys(this.evening.state.cuts));
  }

  cab(): string {
    return this.chance.pick(this.world.doc.throttles).id;
  }

  supply(): string {
    return this.chance.pick(this.world.doc.supplies).id;
  }

  block(): string {
    return this.chance.pick(this.world.doc.blocks).id;
  }

  spot(): Spot {
    const { doc, track } = this.world;
    const spots = doc.edges.flatMap((edge) => edge.between.map((toward) => ({ edge: edge.id, toward })));
    return this.chance.pick(spots.filter((spot) => isStop(track, spot.toward)));
  }

  destination(): string {
    const { blocks, edges, places } = this.world.doc;
    const kind = this.chance.between(1, 10);
    if (kind <= 6) return this.block();
    return this.pick<{ id: string }>(kind <= 8 ? edges : places)?.id ?? this.chance.pick(blocks).id;
  }

  thing(): string {
    const { blocks, selectors, toggles, throttles, supplies } = this.world.doc;
    const lists = [blocks, selectors, toggles, throttles, supplies, this.world.track.thrown, [this.train()]];
    const all = lists.map((list) => list.map((one) => (typeof one === 'string' ? one : one.id)));
    return this.pick(this.chance.pick(all)) ?? this.block();
  }

  authority(): string {
    const all = this.evening.state.authorities;
    const live = all.filter(inForce);
    return this.pick(this.chance.inHundred(85) ? live : all)?.id ?? 'a1';
  }

  /** A block next to where a train is. */
  neighbour(train: string): string {
    const { track } = this.world;
    const trail = this.evening.state.trains[train]?.trail ?? [];
    const head = trail[0];
    if (head === undefined) return this.block();
    const ways = passages(track, head.edge, head.toward);
    return track.blockOf[this.pick(ways)?.to ?? ''] ?? this.block();
  }
}

function making(names: Names, chance: Chance, evening: Evening): Proposal {
  const kind = chance.between(1, 100);
  const { state } = evening;
  const nobody = Object.keys(state.persons).find((cab) => state.persons[cab] === null);
  if (nobody !== undefined && kind <= 40)
    return { do: 'assign-cab', cab: nobody, person: chance.pick(PEOPLE) };
  if (kind <= 85) {
    const idle = Object.keys(state.rolling).filter((id) => !state.trains[id]);
    const train = names.pick(idle) ?? names.train();
    return {
      do: 'place-train',
      train,
      ...names.spot(),
      ...(chance.inHundred(95) ? { cab: names.cab() } : {}),
    };
  }
  return { do: 'start' };
}

function request(names: Names, chance: Chance): Proposal {
  const train = names.placed();
  const to = chance.inHundred(55) ? names.neighbour(train) : names.destination();
  return {
    do: 'request-move',
    train,
    to,
    ...(chance.inHundred(60) ? { overhang: true } : {}),
    ...(chance.inHundred(10) ? { via: [names.block()] } : {}),
    ...(chance.inHundred(10) ? { joining: names.cut() ?? names.placed() } : {}),
    ...(chance.inHundred(15) ? { together: [names.placed()] } : {}),
  };
}

/** What comes next for an authority in force: the read-back, a throw, a report, one key. */
function goOn(names: Names, chance: Chance, world: World, evening: Evening): Proposal | null {
  const { state } = evening;
  const authority = names.pick(state.authorities.filter(inForce));
  if (!authority) return null;
  const { train } = authority;
  const unread = authority.state === 'granted' || authority.visits.some((visit) => !visit.read);
  if (unread && chance.inHundred(60)) return { do: 'acknowledge', authority: authority.id };
  if (authority.kind === 'limits' && chance.inHundred(50)) {
    const spots = world.doc.edges.filter((edge) =>
      authority.visits.some((visit) => visit.block === world.track.blockOf[edge.id]),
    );
    const edge = names.pick(spots);
    if (edge)
      return {
        do: chance.inHundred(70) ? 'release-limits' : 'train-at',
        train,
        edge: edge.id,
        toward: chance.pick(edge.between),
      };
  }
  const needed = throwsFor(world, state, authority);
  const next = names.pick(chance.inHundred(70) ? needed.filter((one) => one.waitsFor.length === 0) : needed);
  if (next && chance.inHundred(55)) {
    const report = chance.inHundred(25);
    if (next.kind === 'selector')
      return { do: report ? 'selector-stands-at' : 'turn-selector', selector: next.id, position: next.to };
    if (next.kind === 'toggle')
      return { do: report ? 'toggle-stands-at' : 'set-toggle', toggle: next.id, on: next.to };
    return { do: report ? 'turnout-stands-at' : 'throw-turnout', turnout: next.id, position: next.to };
  }
  if (chance.inHundred(40)) return { do: 'advance', train };
  const [visit, later] = ahead(authority);
  if (visit && chance.inHundred(70))
    return { do: 'train-entered', train, block: later && chance.inHundred(15) ? later.block : visit.block };
  const behind = names.pick((state.trains[train]?.blocks ?? []).slice(chance.inHundred(90) ? 1 : 0));
  if (behind) return { do: 'train-cleared', train, block: behind.block };
  return chance.inHundred(50) ? { do: 'train-stopped', train } : null;
}

/** Any verb at all but those that end things, with names that exist. */
function anything(names: Names, chance: Chance, world: World, evening: Evening): Proposal {
  const train = names.placed();
  const { lines, entries } = evening;
  const dial = names.pick(world.doc.selectors);
  const position = dial ? (names.pick(dial.positions.filter((one) => one !== null)) ?? 'off') : 'off';
  const toggle = names.pick(world.doc.toggles);
  const turnout = names.pick(world.track.thrown);
  const line = chance.between(Math.max(1, lines.length - 6), Math.max(1, lines.length));
  const simple: (() => Proposal)[] = [
    () => ({
      do: 'hand-off',
      train,
      block: chance.inHundred(70) ? names.neighbour(train) : names.block(),
      toCab: names.cab(),
    }),
    () => ({
      do: 'grant-limits',
      train,
      blocks: chance.inHundred(50) ? [names.neighbour(train)] : [names.block(), names.block()],
    }),
    () => ({ do: 'change-cab', train, cab: names.cab() }),
    () => ({ do: 'train-at', train, ...names.spot() }),
    () => ({
      do: 'train-entered',
      train,
      block: chance.inHundred(80) ? names.neighbour(train) : names.block(),
    }),
    () => ({
      do: 'train-cleared',
      train,
      block: names.pick(evening.state.trains[train]?.blocks ?? [])?.block ?? names.block(),
    }),
    () => ({
      do: chance.pick([
        'train-stopped',
        'train-stopped',
        'stalled',
        'derailed',
        'rerailed',
        'rerailed',
        'take-off',
        'withdraw',
        'advance',
      ]),
      train,
    }),
    () => ({ do: 'annul', authority: names.authority(), why: 'because' }),
    () => ({ do: 'acknowledge', authority: names.authority() }),
    () => ({ do: 'tag', thing: names.thing(), why: 'loose', by: 'Kim' }),
    () => ({ do: 'untag', thing: names.pick(evening.state.tags) ?? names.thing(), by: 'Kim' }),
    () => ({ do: 'assign-cab', cab: names.cab(), person: chance.inHundred(20) ? null : chance.pick(PEOPLE) }),
    () => ({
      do: 'place-train',
      train: names.train(),
      ...names.spot(),
      ...(chance.inHundred(90) ? { cab: names.cab() } : {}),
    }),
    () => ({
      do: 'make-up',
      train: names.train(),
      length: chance.between(2, 15) * 100,
      amps: chance.between(1, 4),
    }),
    () => ({
      do: 'set-out',
      train,
      cut: `c${lines.length}`,
      length: chance.between(1, 5) * 100,
      ...names.spot(),
    }),
    () => ({ do: 'pick-up', train, cut: names.cut() ?? 'c0' }),
    () => ({ do: 'couple', train, other: names.placed() }),
    () => ({ do: 'handle-at-zero', cab: names.cab() }),
    () => ({ do: 'supply-replugged', supply: names.supply() }),
    () => ({ do: chance.pick(['breaker-tripped', 'breaker-reset']), supply: names.supply() }),
    () => ({ do: 'apply-setting', setting: chance.pick(world.doc.settings).id }),
    () => ({ do: 'add-train', train: `g${chance.between(1, 2)}`, name: 'Guest', length: 700, amps: 2 }),
    () => ({ do: 'stop-all', why: 'a child', kind: 'emergency' }),
    () => ({ do: 'retract', entry: line, why: 'typed by mistake' }),
    () => ({ do: 'alarm-seen', alarm: entries.findIndex((entry) => entry.outcome === 'alarm') + 1 || line }),
    () => ({ do: 'note', text: 'coffee' }),
  ];
  if (dial) {
    simple.push(() => ({ do: 'turn-selector', selector: dial.id, position }));
    simple.push(() => ({ do: 'selector-stands-at', selector: dial.id, position }));
  }
  if (toggle) {
    simple.push(() => ({ do: 'set-toggle', toggle: toggle.id, on: chance.inHundred(60) }));
    simple.push(() => ({ do: 'toggle-stands-at', toggle: toggle.id, on: chance.inHundred(60) }));
  }
  if (turnout) {
    const to = chance.pick(['normal', 'reverse']);
    simple.push(() => ({ do: 'throw-turnout', turnout, position: to }));
    simple.push(() => ({ do: 'turnout-stands-at', turnout, position: to }));
  }
  if (world.doc.settings.length === 0) simple.splice(20, 1);
  return chance.pick(simple)();
}

function phase(names: Names, chance: Chance, world: World): Proposal | null {
  const [a, b] = [names.supply(), names.supply()];
  if (a === b || world.doc.supplies.length < 2) return null;
  const voltsAcross = chance.pick([0.3, 0.3, 0.3, 36, 31, 18, 10, 60]);
  return { do: 'phase-measured', a, b, voltsA: 18, voltsB: 18, voltsAcross };
}

function proposal(chance: Chance, world: World, evening: Evening): Proposal {
  const names = new Names(chance, world, evening);
  const { state } = evening;
  if (state.session === 'before')
    return { do: 'open-session', ...(chance.inHundred(25) ? { alone: true } : {}) };
  if (chance.inHundred(4)) return phase(names, chance, world) ?? anything(names, chance, world, evening);
  if (state.session === 'making-up' && chance.inHundred(90)) return making(names, chance, evening);
  if (state.session === 'stopped' && chance.inHundred(25)) return { do: 'resume' };
  const [disputed] = Object.keys(state.disputed);
  if (disputed !== undefined && chance.inHundred(15)) {
    const train = chance.inHundred(50) ? names.placed() : state.disputed[disputed]?.train;
    const occupied = chance.inHundred(60) && train && state.rolling[train];
    return {
      do: 'settle',
      block: disputed,
      ...(occupied ? { state: 'occupied', train } : { state: 'open' }),
    };
  }
  const last = evening.lines.at(-1);
  if (evening.entries.at(-1)?.outcome === 'refused' && last && chance.inHundred(12)) {
    const { at: _, ...order } = last;
    if (!OBSERVATIONS.includes(order.do) && !['override', 'retract', 'alarm-seen'].includes(order.do))
      return { do: 'override', why: 'I say so', order };
  }
  const kind = chance.between(1, 100);
  if (kind <= 45) return goOn(names, chance, world, evening) ?? request(names, chance);
  return kind <= 72 ? request(names, chance) : anything(names, chance, world, evening);
}

/** The next line of a script, one second after the last. */
export function nextLine(chance: Chance, world: World, evening: Evening): Line {
  const { do: verb, ...fields } = proposal(chance, world, evening);
  return { at: evening.lines.length, do: verb, ...fields };
}
