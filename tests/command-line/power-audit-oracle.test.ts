/** The electrical findings of `cabward check` against a second judgement of each, from the design's table alone, on railroads with drawn wiring. */
import { writeFileSync } from 'node:fs';
import { join } from 'node:path';
import { array, boolean, constantFrom, double, integer, option, record, sample } from 'fast-check';
import { expect, test } from 'vitest';
import passingSiding from '../support/passing-siding.railroad.json' with { type: 'json' };
import { cabward } from '../support/run-cabward.ts';
import { temporaryFolder } from '../support/temporary-folder.ts';
import { loop, type Piece, pieceOhms } from '../support/wire-by-nodes.ts';

const amps = (low: number, high: number) =>
  double({ min: low, max: high, noNaN: true }).map((value) => Math.round(value * 10) / 10);
const piece = record({
  awg: integer({ min: 8, max: 24 }),
  run: constantFrom(100, 300, 301, 2000, 9000, 30_000),
});
const supply = record(
  {
    ratedVa: integer({ min: 60, max: 300 }),
    maxVolts: constantFrom(12, 16, 18, 24),
    impedanceOhms: constantFrom(0, 0.1, 0.4, 0.9),
    breakerAmps: constantFrom(3, 5, 7, 10, 15, 20),
    use: constantFrom('track' as const, 'accessory' as const),
    estimated: boolean(),
    isolated: boolean(),
  },
  { requiredKeys: ['ratedVa', 'maxVolts', 'impedanceOhms', 'breakerAmps'] },
);
const dial = record(
  {
    positions: array(constantFrom('off', '1', '2', '3', null), { minLength: 2, maxLength: 6 }),
    stops: boolean(),
    contactAmps: amps(2, 9),
    contacts: constantFrom('break-before-make' as const, 'make-before-break' as const, 'unknown' as const),
  },
  { requiredKeys: ['positions', 'stops', 'contactAmps'] },
);
const drawnWiring = record({
  system: constantFrom('three-rail-ac', 'three-rail-ac', 'two-rail-dc'),
  supplies: array(supply, { minLength: 2, maxLength: 2 }),
  throttleAmps: array(amps(3, 9), { minLength: 3, maxLength: 3 }),
  dials: array(dial, { minLength: 3, maxLength: 3 }),
  wires: array(option(array(piece, { minLength: 1, maxLength: 3 })), { minLength: 4, maxLength: 4 }),
  bus: option(piece),
  trains: array(record({ amps: amps(0.5, 5), stallAmps: amps(5, 9) }, { requiredKeys: ['amps'] }), {
    maxLength: 3,
  }),
});
type Wiring = typeof drawnWiring extends import('fast-check').Arbitrary<infer Value> ? Value : never;

/** The example with what was drawn in place of its own wiring. */
function railroadOf({ system, supplies, throttleAmps, dials, wires, bus, trains }: Wiring) {
  return {
    ...passingSiding,
    system,
    supplies: passingSiding.supplies.map((given, index) => ({ ...given, ...supplies[index] })),
    throttles: passingSiding.throttles.map((given, index) => ({
      ...given,
      maxAmps: throttleAmps[index] ?? 8,
    })),
    selectors: passingSiding.selectors.map((given, index) => {
      const drawn = dials[index];
      const positions = drawn?.positions ?? [];
      // A dial has each throttle once, and something on it.
      const once = positions.filter((at, place) => at === null || positions.indexOf(at) === place);
      return { ...given, ...drawn, positions: ['off', ...once.filter((at) => at !== 'off')] };
    }),
    blocks: passingSiding.blocks.map(({ feeders, ...block }, index) => ({
      ...block,
      feeders: feeders.map(({ edge }) => ({ edge, ...(wires[index] ? { wire: wires[index] } : {}) })),
    })),
    commonBus: bus ?? undefined,
    trains: trains.map((train, index) => ({ id: `t${index}`, name: `No. ${index}`, length: 500, ...train })),
  };
}
type Drawn = ReturnType<typeof railroadOf>;

const CAPS: readonly (readonly [heaviestBelow: number, cap: number])[] = [
  [10, Number.POSITIVE_INFINITY],
  [11, 30],
  [13, 20],
  [15, 15],
  [17, 10],
  [19, 7],
];
const capOf = (awg: number): number => CAPS.find(([below]) => awg < below)?.[1] ?? 3;

/** A gauge behind each of the supplies: the gravest that holds, or nothing. */
function gaugeRank({ awg, run }: Piece, last: boolean, behind: Drawn['supplies']): string | null {
  const tooBig = behind.some(({ breakerAmps }) => breakerAmps > capOf(awg));
  if (tooBig && !(last && run <= 300)) return 'error';
  const track = behind.some(({ use }) => use !== 'accessory');
  return tooBig || (track && awg > 16) ? 'warning' : null;
}

/** Which throttles a block can be on, and so which supplies. */
function behind(railroad: Drawn, source: Drawn['blocks'][number]['source']): Drawn['supplies'] {
  const given = source as { selector?: string; throttle?: string };
  const dialed = railroad.selectors.find(({ id }) => id === given.selector)?.positions ?? [
    given.throttle ?? null,
  ];
  const throttles = railroad.throttles.filter(({ id }) => dialed.includes(id));
  return railroad.supplies.filter(({ id }) => throttles.some((throttle) => throttle.supply === id));
}

function wireFindings(railroad: Drawn): string[] {
  const bus = railroad.commonBus;
  const back = bus === undefined ? 0 : pieceOhms(bus);
  const most = Math.max(0, ...railroad.trains.map((train) => train.stallAmps ?? train.amps));
  const used = railroad.supplies.filter(({ id }) => railroad.throttles.some(({ supply: of }) => of === id));
  const ofBus = bus === undefined ? null : gaugeRank(bus, false, used);
  const found = ofBus === null ? [] : [`undersized-wire ${ofBus} bus`];
  for (const block of railroad.blocks) {
    const fed = behind(railroad, block.source);
    for (const feeder of block.feeders) {
      const pieces = 'wire' in feeder ? (feeder.wire as readonly Piece[]) : [];
      pieces.forEach((one, index) => {
        const rank = fed.length === 0 ? null : gaugeRank(one, index === pieces.length - 1, fed);
        if (rank !== null) found.push(`undersized-wire ${rank} ${block.id}`);
      });
      if (pieces.length === 0) continue;
      const out = pieces.map((one) => pieceOhms(one));
      const loops = fed.map(({ maxVolts, impedanceOhms, breakerAmps }) => ({
        lost: maxVolts - loop(maxVolts, out, [back === 0 ? 1e-12 : back], { amps: most }).voltsAtLoad,
        short: maxVolts / (impedanceOhms + out.reduce((sum, ohms) => sum + ohms, 0) + back),
        maxVolts,
        breakerAmps,
      }));
      if (loops.some(({ lost, maxVolts }) => lost > maxVolts * 0.05))
        found.push(`voltage-drop warning ${block.id}`);
      if (loops.some(({ short, breakerAmps }) => short < 2 * breakerAmps))
        found.push(`slow-trip error ${block.id}`);
    }
  }
  return found;
}

function loadFindings({ trains, throttles, selectors, supplies }: Drawn): string[] {
  const amps = trains.map((train) => train.amps).sort((one, other) => other - one);
  const most = amps[0] ?? 0;
  return [
    ...throttles.filter(({ maxAmps }) => most > maxAmps).map(({ id }) => `overload warning ${id}`),
    ...selectors
      .filter(
        ({ contactAmps, positions }) => most > contactAmps && positions.some((at) => at && at !== 'off'),
      )
      .map(({ id }) => `overload warning ${id}`),
    ...supplies
      .filter(({ id, ratedVa, maxVolts }) => {
        const on = throttles.filter(({ supply: of }) => of === id).length;
        const together = amps.slice(0, on).reduce((sum, each) => sum + each, 0);
        return together * maxVolts > ratedVa + 1e-6;
      })
      .map(({ id }) => `overload warning ${id}`),
  ];
}

function switchFindings({ system, selectors, supplies, throttles, commonBus }: Drawn): string[] {
  const isThrottle = (at: string | null | undefined) => at !== null && at !== undefined && at !== 'off';
  const shorting = selectors
    .filter(({ positions, stops }) =>
      positions.some((at, place) => {
        const next = place + 1 < positions.length ? positions[place + 1] : stops ? null : positions[0];
        return isThrottle(at) && isThrottle(next) && at !== next;
      }),
    )
    .map(({ id, ...dial }) => ({ id, contacts: 'contacts' in dial ? dial.contacts : 'unknown' }))
    .filter(({ contacts }) => contacts !== 'break-before-make')
    .map(
      ({ id, contacts }) => `shorting-selector ${contacts === 'make-before-break' ? 'error' : 'info'} ${id}`,
    );
  const joined = throttles.filter(({ supply: of }) => {
    const its = supplies.find(({ id }) => id === of);
    return its !== undefined && !('isolated' in its && its.isolated === true);
  });
  const shared = system === 'two-rail-dc' && commonBus !== undefined && joined.length > 1;
  return [...shorting, ...(shared ? ['shared-return error'] : [])];
}

const CODES = [
  'undersized-wire',
  'voltage-drop',
  'slow-trip',
  'overload',
  'shorting-selector',
  'shared-return',
];

test('every electrical finding of drawn railroads is one of a second judgement, and none is missing', async () => {
  const file = join(temporaryFolder(), 'drawn.railroad.json');
  const reached = new Set<string>();
  for (const wiring of sample(drawnWiring, { seed: 4, numRuns: 150 })) {
    const railroad = railroadOf(wiring);
    writeFileSync(file, JSON.stringify(railroad));
    const { out, err } = await cabward('check', file, '--json');
    expect(err).toBe('');
    const { findings } = JSON.parse(out) as {
      findings: { code: string; severity: string; about: string[]; says: string; remedy: string }[];
    };
    const place = ({ code, about }: { code: string; about: string[] }): string => {
      if (code === 'shared-return') return '';
      const block = railroad.blocks.find(({ id }) => id === about[0]);
      return code === 'undersized-wire' && block === undefined ? ' bus' : ` ${about[0]}`;
    };
    const found = findings
      .filter(({ code }) => CODES.includes(code))
      .map((finding) => `${finding.code} ${finding.severity}${place(finding)}`);
    const expected = [...wireFindings(railroad), ...loadFindings(railroad), ...switchFindings(railroad)];
    expect(found.sort(), JSON.stringify(railroad)).toEqual(expected.sort());
    for (const each of expected) reached.add(each.split(' ').slice(0, 2).join(' '));
    for (const { says, remedy } of findings) expect([says, remedy]).not.toContain('');
  }
  expect(reached.size).toBe(8);
});
