/** Evenings that nobody wrote for it, on railroads that nobody drew: the figures of each against an independent pass over its raw rows. */
import { join } from 'node:path';
import { expect, test } from 'vitest';
import { openStorage } from '../../electron/host/open-storage.ts';
import { recordEvening } from '../../electron/host/record-evening.ts';
import type { EveningFigures } from '../../shared-model/logbook/figure-types.ts';
import { eveningFigures } from '../../shared-model/logbook/figures.ts';
import { indexRailroad } from '../../shared-model/railroad/railroad.ts';
import { randomEvening } from '../support/random-evening.ts';
import { randomRailroad } from '../support/random-railroad.ts';
import { OPENED_AT } from '../support/small-log.ts';
import { temporaryFolder } from '../support/temporary-folder.ts';
import { expectAsInRows } from './as-in-rows.ts';
import { figuresFromRows } from './by-raw-rows.ts';

const EVENINGS = 24;

test(`the figures of ${EVENINGS} random evenings are those of their rows`, () => {
  const file = join(temporaryFolder(), 'evenings.cabward');
  const opened = openStorage(file, OPENED_AT, () => undefined);
  if (opened.kind !== 'open') throw new Error(opened.kind);
  const { storage, close } = opened.opened;
  const figures: EveningFigures[] = [];
  for (let seed = 1; seed <= EVENINGS; seed += 1) {
    const document = randomRailroad(seed, 6 + (seed % 8));
    const evening = randomEvening(indexRailroad(document), seed, 90);
    const inputs = evening.events.map(({ at, input }) => ({ at, input }));
    const held = { document, inputs, uid: `held-out-${seed}`, openedAt: OPENED_AT, name: `${seed}` };
    expect(recordEvening(storage, held)).toEqual({ ok: true, value: seed });
    figures.push(eveningFigures(evening.railroad, evening.initial, evening.events));
  }
  close();
  for (const [index, found] of figures.entries()) expectAsInRows(found, figuresFromRows(file, index + 1));
  // Something of everything happened in them.
  const some = (figure: (of: EveningFigures) => number) => figures.reduce((sum, one) => sum + figure(one), 0);
  expect(some(({ waits }) => waits.length)).toBeGreaterThan(5);
  expect(some(({ alarms }) => alarms.length)).toBeGreaterThan(5);
  expect(some(({ trains }) => trains.filter(({ distanceMm }) => distanceMm > 0).length)).toBeGreaterThan(5);
});
