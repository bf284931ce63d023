/** The first answers about an evening: who waited longest and why, which block is the bottleneck, and where in the replay that is seen. */
import { expect, test } from 'vitest';
import { eveningFigures } from '../../shared-model/logbook/figures.ts';
import { headline } from '../../shared-model/logbook/headline.ts';
import { namesOf } from '../../shared-model/logbook/names.ts';
import { workedEvening } from './worked-evening.ts';

const { railroad, initial, events } = workedEvening;
const names = namesOf(
  railroad,
  new Map([
    ['t7', 'No. 7'],
    ['t12', 'No. 12'],
  ]),
  'imperial',
);
const clock = (at: number) =>
  `20:${String(Math.floor(at / 60)).padStart(2, '0')}:${String(at % 60).padStart(2, '0')}`;

test('No. 7 waited longest, 75 s, most of it for block 2; it is seen from its call at 15 s on', () => {
  expect(headline(eveningFigures(railroad, initial, events), names, clock)).toEqual([
    {
      says: 'No. 7 (Avery) waited longest: 0:01:15 of 0:02:10, 0:01:05 of it for block 2, which No. 12 had, from 20:00:15 on.',
      at: 15,
    },
    { says: 'The bottleneck is block 2: 87 % of all waiting, 0:01:05.', at: 15 },
  ]);
});

test('where nobody waited that is said, and there is nothing to see', () => {
  const early = eveningFigures(railroad, initial, events.slice(0, 9));
  expect(headline(early, names, clock)).toEqual([{ says: 'Nobody waited.', at: null }]);
});

test('a train that changed hands while it waited names both, and its waiting for one thing is one', () => {
  const figures = eveningFigures(railroad, initial, events);
  const [wait, ...rest] = figures.waits;
  if (wait === undefined) throw new Error('nobody waited');
  // Avery gave it to Kim 20 s after the call.
  const waits = [
    { ...wait, person: 'Kim', seconds: 45, longest: { from: 35, seconds: 45 } },
    { ...wait, seconds: 20, longest: { from: 15, seconds: 20 } },
    ...rest.map((one) => ({ ...one, person: 'Kim' })),
  ];
  expect(headline({ ...figures, waits }, names, clock)).toEqual([
    {
      says: 'No. 7 (Avery, then Kim) waited longest: 0:01:15 of 0:02:10, 0:01:05 of it for block 2, which No. 12 had, from 20:00:15 on.',
      at: 15,
    },
    { says: 'The bottleneck is block 2: 87 % of all waiting, 0:01:05.', at: 15 },
  ]);
});
