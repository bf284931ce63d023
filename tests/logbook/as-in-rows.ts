/** Figures held against those that an independent pass over the raw rows of the log gives. */
import { expect } from 'vitest';
import type { CodeCount, EveningFigures } from '../../shared-model/logbook/figure-types.ts';
import type { figuresFromRows } from './by-raw-rows.ts';

/** The figures that are not zero, by id. */
const byId = <Item extends { readonly id: string }>(items: readonly Item[], figure: (item: Item) => number) =>
  Object.fromEntries(items.flatMap((item) => (figure(item) === 0 ? [] : [[item.id, figure(item)]])));
const byCode = (codes: readonly CodeCount[]) =>
  Object.fromEntries(codes.map(({ code, count }) => [code, count]));
/** Sums of the same seconds in another order may differ in the last bit. */
const rounded = (sums: Record<string, number>) =>
  Object.fromEntries(Object.entries(sums).map(([id, sum]) => [id, Math.round(sum * 1e6) / 1e6]));

/** Expects every figure that the rows give. */
export function expectAsInRows(figures: EveningFigures, raw: ReturnType<typeof figuresFromRows>): void {
  const { trains, blocks, people } = figures;
  expect(figures.seconds).toBe(raw.seconds);
  expect(rounded(byId(trains, ({ seconds }) => seconds))).toEqual(rounded(raw.onTrack));
  expect(rounded(byId(people, ({ seconds }) => seconds))).toEqual(rounded(raw.withCab));
  expect(rounded(byId(blocks, (block) => block.occupiedSeconds))).toEqual(rounded(raw.occupied));
  expect(rounded(byId(blocks, (block) => block.heldSeconds))).toEqual(rounded(raw.held));
  expect(rounded(byId(trains, (train) => train.waitSeconds))).toEqual(rounded(raw.waited));
  expect(rounded(byId(trains, (train) => train.distanceMm))).toEqual(rounded(raw.distance));
  expect(byId(trains, ({ moves }) => moves)).toEqual(raw.moves);
  expect(byId(trains, ({ handOffs }) => handOffs)).toEqual(raw.handOffs);
  expect(byCode(figures.refusals)).toEqual(raw.refusals);
  expect(byCode(figures.alarms)).toEqual(raw.alarms);
  expect(figures.overrides.map(({ entry, why }) => [entry, why])).toEqual(raw.overrides);
  const throws = figures.throwsPerMinute.map((count, minute) => ({ id: String(minute), count }));
  expect(byId(throws, ({ count }) => count)).toEqual(raw.throwsPerMinute);
  expect(rounded(byId(people, (person) => person.waitSeconds))).toEqual(rounded(raw.byPerson.waited));
  expect(rounded(byId(people, (person) => person.distanceMm))).toEqual(rounded(raw.byPerson.distance));
  expect(byId(people, ({ moves }) => moves)).toEqual(raw.byPerson.moves);
  const waitedFor: Record<string, number> = {};
  for (const { thing, seconds } of figures.waits)
    waitedFor[thing ?? ''] = (waitedFor[thing ?? ''] ?? 0) + seconds;
  expect(rounded(waitedFor)).toEqual(rounded(raw.waitedFor));
  // The shares of the blocks are parts of all waiting; what lies in no block is the dispatcher's.
  const waited = Object.values(raw.waited).reduce((sum, seconds) => sum + seconds, 0);
  for (const { waitSeconds, waitShare } of blocks)
    expect(waitShare).toBeCloseTo(waited === 0 ? 0 : waitSeconds / waited, 9);
  const inNoBlock = figures.waits.filter(({ block }) => block === null);
  const all = [...blocks.map(({ waitSeconds }) => waitSeconds), ...inNoBlock.map(({ seconds }) => seconds)];
  expect(all.reduce((sum, seconds) => sum + seconds, 0)).toBeCloseTo(waited, 6);
}
