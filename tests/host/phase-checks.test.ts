/** Phase checks that are made while no evening goes on: they are the next evening's, with their age, and lapse as those of an evening do. */
import { join } from 'node:path';
import { describe, expect, test } from 'vitest';
import { checksDue } from '../../shared-model/power/phase-due.ts';
import { phaseRelation } from '../../shared-model/power/phase-groups.ts';
import { indexRailroad } from '../../shared-model/railroad/railroad.ts';
import { plateOf } from '../../shared-model/session/kept-checks.ts';
import type { PhaseCheckNow, SessionState } from '../../shared-model/session/state.ts';
import { passingSidingExample } from '../support/example.ts';
import { answered, type HostUnderTest, item } from '../support/host-suite.ts';
import { directHost, openedConsole, turnedClock } from '../support/open-host.ts';
import { temporaryFolder } from '../support/temporary-folder.ts';

const HOUR = 3600;
const [northBench, southBench] = passingSidingExample.supplies;
if (northBench === undefined || southBench === undefined) throw new Error('the example has two supplies');
const [north, south] = [northBench.id, southBench.id];

/** A log that is closed and opened again between the steps, as the console's program is. */
function restartedHosts() {
  const log = join(temporaryFolder(), 'evenings.cabward');
  const { clock, pass, now } = turnedClock();
  let opened = openedConsole({ log, clock });
  return {
    pass,
    now,
    host: () => directHost(opened),
    restart: async () => {
      await opened.close();
      opened = openedConsole({ log, clock });
      return directHost(opened);
    },
  };
}

const importExample = async (host: HostUnderTest, document: object = passingSidingExample) =>
  (
    await answered<{ id: string }>(
      host.call('railroads.import', { text: JSON.stringify(document), name: 'siding' }),
    )
  ).id;

let kept = 0;
function keep(host: HostUnderTest, kind: string, value: object) {
  kept += 1;
  return answered(host.call('keep.write', { kind, id: `kept ${kept}`, value }));
}
const keepCheck = (host: HostUnderTest, railroad: string, part: object = {}) =>
  keep(host, 'phase-check', {
    railroad,
    a: north,
    b: south,
    voltsA: 18,
    voltsB: 18,
    voltsAcross: 0.4,
    tolerancePercent: 2,
    plates: [plateOf(northBench), plateOf(southBench)],
    ...part,
  });
const standing = (host: HostUnderTest, railroad: string) =>
  answered<PhaseCheckNow[]>(host.call('phase.checks', { railroad }));
const openEvening = async (host: HostUnderTest, railroad: string) =>
  (await answered<{ state: SessionState }>(host.call('evening.open', { railroad, alone: false }))).state;
const endEvening = (host: HostUnderTest) =>
  answered(host.call('evening.send', { items: [item({ do: 'end-session' })] }));

/** Why a check is due at the opening of an evening, as making up says it; nothing when none is. */
function dueAtOpening({ checks }: SessionState, oldAfter: number): string | undefined {
  const aged = checks.map((check) => ({ ...check, age: -check.at }));
  return checksDue(indexRailroad(passingSidingExample), aged, oldAfter)[0]?.why;
}

describe('a check made while no evening goes on', () => {
  test('is in the state of the next evening, as old as it is, also after a restart', async () => {
    const { pass, host, restart } = restartedHosts();
    const railroad = await importExample(host());
    await keepCheck(host(), railroad);
    pass(2 * HOUR);
    const state = await openEvening(await restart(), railroad);
    expect(state.checks).toEqual([
      {
        a: 'north',
        b: 'south',
        voltsA: 18,
        voltsB: 18,
        voltsAcross: 0.4,
        tolerancePercent: 2,
        at: -2 * HOUR,
        lapsed: false,
      },
    ]);
    expect(phaseRelation(state.checks, north, south)).toBe('in-phase');
    expect(dueAtOpening(state, 12 * HOUR)).toBeUndefined();
    expect(dueAtOpening(state, HOUR)).toBe('old');
  });

  test('goes on to the evening after that, once, and the older', async () => {
    const { pass, host, restart } = restartedHosts();
    const railroad = await importExample(host());
    await keepCheck(host(), railroad);
    pass(HOUR);
    await openEvening(host(), railroad);
    await endEvening(host());
    pass(23 * HOUR);
    const state = await openEvening(await restart(), railroad);
    expect(state.checks).toMatchObject([{ at: -24 * HOUR, lapsed: false }]);
  });

  test('replaces what the last evening measured of that pair', async () => {
    const { pass, host, restart } = restartedHosts();
    const railroad = await importExample(host());
    await openEvening(host(), railroad);
    const measured = { do: 'phase-measured', a: south, b: north, voltsA: 18, voltsB: 18, voltsAcross: 36 };
    await answered(host().call('evening.send', { items: [item(measured)] }));
    await endEvening(host());
    expect(await standing(host(), railroad)).toMatchObject([{ a: 'south', voltsAcross: 36, lapsed: false }]);
    pass(HOUR);
    await keepCheck(host(), railroad);
    pass(HOUR);
    const again = await restart();
    expect(await standing(again, railroad)).toMatchObject([{ a: 'north', voltsAcross: 0.4, at: -HOUR }]);
    expect((await openEvening(again, railroad)).checks).toMatchObject([{ voltsAcross: 0.4 }]);
  });

  test('is judged with the tolerance of the meter it was made with', async () => {
    const { host } = restartedHosts();
    const railroad = await importExample(host());
    // At ±2 % these readings are in phase; the meter of ±10 % cannot tell.
    await keepCheck(host(), railroad, { voltsAcross: 5.5, tolerancePercent: 10 });
    const { checks } = await openEvening(host(), railroad);
    expect(phaseRelation(checks, north, south)).toBe('unknown');
  });

  test('is another railroad’s business if it was made there', async () => {
    const { host } = restartedHosts();
    const railroad = await importExample(host());
    const other = await importExample(host(), { ...passingSidingExample, name: 'Another' });
    await keepCheck(host(), other);
    expect(await standing(host(), railroad)).toEqual([]);
    expect(await standing(host(), other)).toHaveLength(1);
  });

  test('is not from tomorrow where the clock was set back', async () => {
    const { now, host } = restartedHosts();
    const railroad = await importExample(host());
    await keepCheck(host(), railroad);
    now.wall -= 5 * HOUR * 1000;
    expect(await standing(host(), railroad)).toMatchObject([{ at: 0 }]);
    expect((await openEvening(host(), railroad)).checks).toMatchObject([{ lapsed: false }]);
  });

  test('is passed over where it cannot be read', async () => {
    const { host } = restartedHosts();
    const railroad = await importExample(host());
    await keepCheck(host(), railroad, { voltsA: 'eighteen' });
    await keepCheck(host(), railroad, { a: 'west' });
    expect(await standing(host(), railroad)).toEqual([]);
  });
});

describe('a check lapses', () => {
  test('when a supply was replugged while no evening went on; one made afterwards holds', async () => {
    const { pass, host, restart } = restartedHosts();
    const railroad = await importExample(host());
    await keepCheck(host(), railroad);
    pass(HOUR);
    await keep(host(), 'supply-replugged', { railroad, supply: south });
    expect(await standing(host(), railroad)).toMatchObject([{ lapsed: true }]);
    const lapsed = await openEvening(await restart(), railroad);
    expect(dueAtOpening(lapsed, 12 * HOUR)).toBe('lapsed');
    await endEvening(host());
    pass(HOUR);
    await keepCheck(host(), railroad);
    expect((await openEvening(host(), railroad)).checks).toMatchObject([{ lapsed: false }]);
  });

  test('when the plug was out during the evening: the next one still knows', async () => {
    const { pass, host, restart } = restartedHosts();
    const railroad = await importExample(host());
    await keepCheck(host(), railroad);
    pass(HOUR);
    await openEvening(host(), railroad);
    const replugged = item({ do: 'supply-replugged', supply: north });
    await answered(host().call('evening.send', { items: [replugged] }));
    await endEvening(host());
    pass(HOUR);
    expect((await openEvening(await restart(), railroad)).checks).toMatchObject([{ lapsed: true }]);
  });

  test.each([
    ['made while no evening went on', false],
    ['carried through an evening', true],
  ])('when another transformer stands in the supply’s place, %s', async (_, throughEvening) => {
    const { pass, host, restart } = restartedHosts();
    const railroad = await importExample(host());
    await keepCheck(host(), railroad);
    pass(HOUR);
    if (throughEvening) {
      await openEvening(host(), railroad);
      await endEvening(host());
    }
    const supplies = passingSidingExample.supplies.map((supply) =>
      supply.id === south ? { ...supply, name: 'New bench', maxVolts: 20 } : supply,
    );
    const document = { ...passingSidingExample, supplies };
    await answered(host().call('railroads.saveDraft', { id: railroad, name: 'siding', document }));
    expect(await standing(host(), railroad)).toMatchObject([{ lapsed: true }]);
    await answered(host().call('railroads.publish', { id: railroad, note: 'another transformer' }));
    expect((await openEvening(await restart(), railroad)).checks).toMatchObject([{ lapsed: true }]);
  });

  test('but not because a supply has another name, or a breaker tripped and was reset', async () => {
    const { host, restart } = restartedHosts();
    const railroad = await importExample(host());
    await keepCheck(host(), railroad);
    await openEvening(host(), railroad);
    const items = [
      item({ do: 'breaker-tripped', supply: south }),
      item({ do: 'breaker-reset', supply: south }),
    ];
    await answered(host().call('evening.send', { items }));
    await endEvening(host());
    const supplies = passingSidingExample.supplies.map((supply) => ({
      ...supply,
      name: `My ${supply.name}`,
    }));
    const document = { ...passingSidingExample, supplies };
    await answered(host().call('railroads.saveDraft', { id: railroad, name: 'siding', document }));
    await answered(host().call('railroads.publish', { id: railroad, note: 'names' }));
    expect((await openEvening(await restart(), railroad)).checks).toMatchObject([{ lapsed: false }]);
  });
});

test('an evening that began with such a check is the same evening elsewhere', async () => {
  const { host } = restartedHosts();
  const railroad = await importExample(host());
  await keepCheck(host(), railroad, { tolerancePercent: 3 });
  await openEvening(host(), railroad);
  await endEvening(host());
  const [card] = await answered<{ id: string }[]>(host().call('evenings.list', {}));
  const { text } = await answered<{ text: string }>(host().call('evenings.export', { id: card?.id ?? '' }));
  const elsewhere = directHost(openedConsole());
  const imported = await answered<{ id: string }>(elsewhere.call('evenings.import', { text }));
  const { initial } = await answered<{ initial: SessionState }>(
    elsewhere.call('evenings.read', { id: imported.id }),
  );
  expect(initial.checks).toMatchObject([{ tolerancePercent: 3, voltsAcross: 0.4 }]);
});

test('a railroad that is not in the library has no checks: a problem, as data', async () => {
  const answer = await restartedHosts().host().call('phase.checks', { railroad: '99' });
  expect(answer).toMatchObject({ ok: false, problem: { kind: 'not-found', path: '$.railroad' } });
});
