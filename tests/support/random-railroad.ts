/**
 * Random valid railroads: every section is one block fed once, sources are selectors, straight-wired throttles and toggles (also
 * behind each other), several supplies, trains, places and settings. Three-rail, without wires: the audit finds no error in them.
 */
import fc from 'fast-check';
import type { BlockId, SelectorId, ThrottleId, ToggleId } from '../../shared-model/ids.ts';
import {
  type Block,
  type RailroadDocument,
  railroadDocument,
  type Selector,
  type Toggle,
} from '../../shared-model/railroad/document.ts';
import { indexRailroad, type Railroad } from '../../shared-model/railroad/railroad.ts';
import { isStop, isThrown, type Spot } from '../../shared-model/railroad/travel.ts';
import { type Chance, chanceOf } from './chance.ts';
import { randomTrack } from './random-track.ts';

const numbered = <T>(count: number, make: (number: number) => T): T[] =>
  Array.from({ length: count }, (_, index) => make(index + 1));

/** A dial with "off", some of the throttles, and now and then a position that is not wired. */
function randomDial(chance: Chance, id: string, throttles: readonly ThrottleId[]): Selector {
  const positions: (ThrottleId | 'off' | null)[] = throttles.filter(() => chance.inHundred(80));
  positions.splice(chance.between(0, positions.length), 0, 'off');
  if (chance.inHundred(30)) positions.splice(chance.between(0, positions.length), 0, null);
  return {
    id: id as SelectorId,
    name: id,
    positions,
    stops: chance.inHundred(70),
    contacts: chance.inHundred(90) ? 'break-before-make' : 'unknown',
    contactAmps: chance.between(4, 10),
  };
}

interface Wiring {
  readonly blocks: Block[];
  readonly selectors: Selector[];
  readonly toggles: Toggle[];
}

/** A block for each section, its sources as they come; a section behind a toggle hangs on a block made before it. */
function randomWiring(chance: Chance, bare: Railroad, throttles: readonly ThrottleId[]): Wiring {
  const wiring: Wiring = { blocks: [], selectors: [], toggles: [] };
  bare.sections.forEach((section, index) => {
    const id = `B${index + 1}` as BlockId;
    const feeders = [{ edge: chance.pick(section.edges) }];
    const kind = chance.between(1, 100);
    if (kind <= 15 && wiring.blocks.length > 0) {
      const toggle = `H${index + 1}` as ToggleId;
      wiring.toggles.push({ id: toggle, name: `Hold ${index + 1}` });
      const from = chance.pick(wiring.blocks).id;
      wiring.blocks.push({ id, name: `Block ${index + 1}`, source: { toggle, from }, feeders });
    } else if (kind <= 35)
      wiring.blocks.push({
        id,
        name: `Block ${index + 1}`,
        source: { throttle: chance.pick(throttles) },
        feeders,
      });
    else {
      const selector = randomDial(chance, `K${index + 1}`, throttles);
      wiring.selectors.push(selector);
      wiring.blocks.push({ id, name: `Block ${index + 1}`, source: { selector: selector.id }, feeders });
    }
  });
  return wiring;
}

const record = <T extends { id: string }, Value>(list: readonly T[], value: (thing: T) => Value) =>
  Object.fromEntries(list.map((thing) => [thing.id, value(thing)]));

/**
 * A random railroad document, parsed by the schema.
 *
 * @param seed the same seed and size always give the same railroad
 * @param size how far the track grows: about as many turnouts, crossings and gaps as this
 */
export function randomRailroad(seed: number, size = 12): RailroadDocument {
  const chance = chanceOf(seed);
  const track = randomTrack(chance, size);
  const supplies = numbered(chance.between(1, 3), (n) => ({
    id: `S${n}`,
    name: `Supply ${n}`,
    ratedVa: 180,
    maxVolts: 18,
    impedanceOhms: 0.2,
    breakerAmps: 10,
  }));
  const throttles = numbered(chance.between(2, 5), (n) => ({
    id: `${n}`,
    name: `Cab ${n}`,
    supply: chance.pick(supplies).id,
    maxAmps: chance.between(5, 10),
  }));
  const bareDocument = railroadDocument.parse({
    format: 'cabward-railroad/1',
    name: `Random ${seed}/${size}`,
    scaleRatio: 48,
    system: 'three-rail-ac',
    ...track,
    supplies,
    throttles,
    selectors: [],
    toggles: [],
    blocks: [],
    trains: [],
    places: [],
    settings: [],
  });
  const bare = indexRailroad(bareDocument);
  const wiring = randomWiring(
    chance,
    bare,
    throttles.map((throttle) => throttle.id as ThrottleId),
  );
  const stops = stoppingSpots(bare);
  const turnouts = bareDocument.nodes.filter(isThrown);
  return railroadDocument.parse({
    ...bareDocument,
    ...wiring,
    trains: numbered(chance.between(1, 5), (n) => ({
      id: `t${n}`,
      name: `No. ${n}`,
      length: chance.between(2, 40) * 50,
      amps: chance.between(5, 40) / 10,
    })),
    places: numbered(stops.length === 0 ? 0 : chance.between(0, 3), (n) => ({
      id: `p${n}`,
      name: `Place ${n}`,
      order: n,
      at: numbered(chance.between(1, 2), () => chance.pick(stops)),
    })),
    settings: numbered(chance.between(0, 2), (n) => ({
      id: `s${n}`,
      name: `Setting ${n}`,
      selectors: record(wiring.selectors, (dial) => chance.pick(dial.positions) ?? 'off'),
      turnouts: record(turnouts, () => chance.pick(['normal', 'reverse'])),
      toggles: record(wiring.toggles, () => chance.inHundred(50)),
    })),
  });
}

/** Every spot at which a head may stand: toward a gap or an end of track. */
export function stoppingSpots(railroad: Railroad): readonly Spot[] {
  return railroad.document.edges.flatMap((edge) =>
    edge.between.filter((node) => isStop(railroad, node)).map((toward) => ({ edge: edge.id, toward })),
  );
}

/** Random railroads for properties; a failing one shrinks to smaller sizes. */
export const anyRailroad: fc.Arbitrary<RailroadDocument> = fc
  .tuple(fc.nat({ max: 1_000_000 }), fc.integer({ min: 1, max: 24 }))
  .map(([seed, size]) => randomRailroad(seed, size));
