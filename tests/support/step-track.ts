/** Railroads for hand-worked examples of the literature: vertices become blocks of one length, joined at gaps; trains fit into one block. */
import { parseSituation, type Situation, type SituationJson } from '../../shared-model/planning/situation.ts';
import type { RailroadDocument } from '../../shared-model/railroad/document.ts';
import { indexRailroad, type Railroad } from '../../shared-model/railroad/railroad.ts';
import { plainNodes, type SmallTrack, smallDocument, turnout } from './line-of-track.ts';

/** At 30 scale mph on 1:48 a run of this length takes ten seconds: 2794 mm at 279.4 mm/s. */
export const STEP_MM = 2794;

/** Throttles and trains `1` to `count`, all wired everywhere; trains of a length that fits into every block. */
export function withCrews(track: SmallTrack, count: number, lengthMm = 1000): RailroadDocument {
  const cabs = Array.from({ length: count }, (_, index) => `${index + 1}`);
  return smallDocument(track, {
    throttles: cabs.map((id) => ({ id, name: `Cab ${id}`, supply: 'north', maxAmps: 8 })),
    selectors: Object.keys(track.blocks).map((block) => ({
      id: `K-${block}`,
      name: block,
      positions: ['off', ...cabs],
      stops: true,
      contactAmps: 8,
    })),
    trains: cabs.map((id) => ({ id: `t${id}`, name: `No. ${id}`, length: lengthMm, amps: 2 })),
  });
}

/** Blocks in a row, from an end of track to an end of track: `A`, `B`, `C` … as named. */
export function lineTrack(names: readonly string[]): SmallTrack {
  const gaps = names.slice(1).map((_, index) => `g${index + 1}`);
  const nodes = ['n1', ...gaps, 'n2'];
  return {
    nodes: plainNodes(...nodes),
    edges: names.map((name, index) => [`e-${name}`, nodes[index] ?? '', nodes[index + 1] ?? '', STEP_MM]),
    blocks: Object.fromEntries(names.map((name) => [name, `e-${name}`])),
  };
}

/** Blocks in a ring; clockwise is from the first to the second. */
export function ringTrack(count: number): SmallTrack {
  const names = Array.from({ length: count }, (_, index) => `R${index + 1}`);
  const gaps = names.map((_, index) => `g${index + 1}`);
  return {
    nodes: plainNodes(...gaps),
    edges: names.map((name, index) => [
      `e-${name}`,
      gaps[index] ?? '',
      gaps[(index + 1) % count] ?? '',
      STEP_MM,
    ]),
    blocks: Object.fromEntries(names.map((name) => [name, `e-${name}`])),
  };
}

/**
 * Stations in a row, `capacities[i]` parallel tracks each, joined gap to gap: a station of one track is plain track; one of more has a
 * ladder at each end whose turnouts lie in the block of the neighbour of one track (stations of more than one track must alternate
 * with plain track). The first and the last may have several tracks, each to an end of track.
 */
export function stationsTrack(capacities: readonly number[]): SmallTrack {
  const nodes: SmallTrack['nodes'][number][] = [];
  const edges: [string, string, string, number][] = [];
  const blocks: Record<string, string> = {};
  const add = (id: string, a: string, b: string, length: number): string => {
    edges.push([id, a, b, length]);
    return id;
  };
  /** The ends of track or gaps at one side of a station, one for each of its tracks. */
  const sides = capacities.map((tracks, place) => ({
    west: Array.from({ length: tracks }, (_, track) => (place === 0 ? `n-w${track}` : `g-${place}w${track}`)),
    east: Array.from({ length: tracks }, (_, track) =>
      place === capacities.length - 1 ? `n-e${track}` : `g-${place + 1}w${tracks > 1 ? `x${track}` : 0}`,
    ),
  }));
  const done = new Set<string>();
  const node = (id: string): void => {
    if (done.has(id)) return;
    done.add(id);
    nodes.push(...plainNodes(id));
  };
  /** From a plain block's inner node to the gaps of a station: two or three tracks by one or two turnouts. */
  const ladder = (name: string, trunk: string, ends: readonly string[]): string => {
    const first = `T-${name}1`;
    const second = `T-${name}2`;
    ends.forEach(node);
    const [a = '', b = '', c = ''] = ends;
    if (ends.length === 2) {
      nodes.push(turnout(first, trunk, add(`e-${name}a`, first, a, 100), add(`e-${name}b`, first, b, 100)));
      return first;
    }
    nodes.push(
      turnout(first, trunk, add(`e-${name}a`, first, a, 100), add(`e-${name}m`, first, second, 100)),
      turnout(second, `e-${name}m`, add(`e-${name}b`, second, b, 100), add(`e-${name}c`, second, c, 100)),
    );
    return first;
  };
  capacities.forEach((tracks, place) => {
    const { west, east } = sides[place] ?? { west: [], east: [] };
    if (tracks > 1) {
      west.forEach((from, track) => {
        const to = east[track] ?? '';
        node(from);
        node(to);
        blocks[`S${place}${'abc'[track]}`] = add(`e-S${place}${track}`, from, to, STEP_MM);
      });
      return;
    }
    const id = `e-P${place}`;
    const before = place === 0 ? null : (capacities[place - 1] ?? 1);
    const after = place === capacities.length - 1 ? null : (capacities[place + 1] ?? 1);
    const from = west[0] ?? '';
    const to = east[0] ?? '';
    const westEnd =
      before === null || before === 1 ? from : ladder(`${place}w`, id, sides[place - 1]?.east ?? []);
    const eastEnd =
      after === null || after === 1 ? to : ladder(`${place}e`, id, sides[place + 1]?.west ?? []);
    for (const end of [westEnd, eastEnd]) if (!end.startsWith('T')) node(end);
    blocks[`P${place}`] = add(id, westEnd, eastEnd, STEP_MM);
  });
  return { nodes, edges, blocks };
}

/** The heads of trains at gaps or ends, each on the cab of its number. */
export function trainsAt(
  ...trains: readonly { readonly at: string; readonly to?: string; readonly notBefore?: number }[]
): SituationJson {
  return {
    trains: trains.map(({ at, to, notBefore }, index) => {
      const [edge = '', toward = ''] = at.split(':');
      return {
        train: `t${index + 1}`,
        edge,
        toward,
        cab: `${index + 1}`,
        ...(to === undefined ? {} : { to }),
        ...(notBefore === undefined ? {} : { notBefore }),
      };
    }) as SituationJson['trains'],
  };
}

export const stepRailroad = (track: SmallTrack, crews: number, lengthMm?: number) =>
  indexRailroad(withCrews(track, crews, lengthMm));

/** A situation that is known to be right. */
export function situationOf(railroad: Railroad, json: SituationJson): Situation {
  const parsed = parseSituation(railroad, json);
  if (!parsed.ok) throw new Error(`${parsed.malformed.path}: ${parsed.malformed.says}`);
  return parsed.value;
}
