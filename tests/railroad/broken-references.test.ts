/** Every kind of reference that can lead nowhere, planted one at a time into the passing siding of the design. */
import { describe, expect, test } from 'vitest';
import { audit } from '../../shared-model/railroad/audit.ts';
import { railroadDocument } from '../../shared-model/railroad/document.ts';
import { passingSidingExample } from '../support/example.ts';

type Draft = ReturnType<typeof draft>;
type Change = (document: Draft) => void;
const draft = () =>
  structuredClone(passingSidingExample) as unknown as Record<string, Record<string, unknown>[]>;

/** Sets one field of one thing of the example. */
const set = (list: string, id: string, field: string, value: unknown) => (document: Draft) => {
  const thing = document[list]?.find((one) => one.id === id);
  if (thing === undefined) throw new Error(`no ${id}`);
  thing[field] = value;
};
const add = (list: string, thing: Record<string, unknown>) => (document: Draft) => {
  document[list]?.push(thing);
};
const found = (...changes: readonly Change[]) => {
  const document = draft();
  for (const change of changes) change(document);
  return audit(railroadDocument.parse(document));
};
const aboutOf = (...changes: readonly Change[]) =>
  found(...changes).map(({ code, severity, about }) => [code, severity, ...about]);

const crossing = (change: Record<string, unknown>) => [
  ...['p', 'q', 'r', 's'].map((letter) => add('nodes', { id: `n-${letter}`, kind: 'end', at: [0, 9] })),
  ...['p', 'q', 'r', 's'].map((letter) =>
    add('edges', { id: `x${letter}`, between: [`n-${letter}`, 'X1'], length: 300 }),
  ),
  add('nodes', {
    id: 'X1',
    kind: 'crossing',
    at: [1, 9],
    ways: [
      ['xp', 'xq'],
      ['xr', 'xs'],
    ],
    ...change,
  }),
  add('blocks', { id: 'BX', name: 'Crossing', source: { throttle: '1' }, feeders: [{ edge: 'xp' }] }),
];

describe('an id that does not exist is named with the thing that names it', () => {
  const cases: readonly (readonly [string, (document: Draft) => void, readonly string[]])[] = [
    ['a selector of a block', set('blocks', 'B1', 'source', { selector: 'K9' }), ['B1', 'K9']],
    ['a throttle of a block', set('blocks', 'B4', 'source', { throttle: '9' }), ['B4', '9']],
    ['a block behind a toggle', set('blocks', 'B4', 'source', { toggle: 'H1', from: 'B1' }), ['B4', 'H1']],
    ['an edge of a feeder', set('blocks', 'B1', 'feeders', [{ edge: 'e1' }, { edge: 'e99' }]), ['B1', 'e99']],
    ['a supply of a throttle', set('throttles', '3', 'supply', 'west'), ['3', 'west']],
    ['a throttle on a dial', set('selectors', 'K1', 'positions', ['off', '1', '8']), ['K1', '8']],
  ];
  test.each(cases)('%s', (_name, change, ids) => {
    expect(aboutOf(change)).toEqual([['broken-reference', 'error', ...ids]]);
  });

  test('an edge, a node and an end of a place', () => {
    const place = (edge: string, toward: string) =>
      add('places', { id: 'quarry', name: 'Quarry', order: 1, at: [{ edge, toward }] });
    expect(aboutOf(place('e99', 'n2'))).toEqual([['broken-reference', 'error', 'quarry', 'e99']]);
    expect(aboutOf(place('e8', 'n99'))).toEqual([['broken-reference', 'error', 'quarry', 'n99']]);
    expect(aboutOf(place('e8', 'n1'))).toEqual([['broken-reference', 'error', 'quarry', 'e8', 'n1']]);
  });

  test('selectors, throttles, turnouts and toggles of a setting', () => {
    const setting = (change: Record<string, unknown>) =>
      add('settings', { id: 'loops', name: 'Loops', selectors: {}, turnouts: {}, toggles: {}, ...change });
    expect(aboutOf(setting({ selectors: { K9: 'off' } }))).toEqual([
      ['broken-reference', 'error', 'loops', 'K9'],
    ]);
    expect(aboutOf(setting({ selectors: { K1: '9' } }))).toEqual([
      ['broken-reference', 'error', 'loops', '9'],
    ]);
    expect(aboutOf(setting({ turnouts: { T9: 'normal' } }))).toEqual([
      ['broken-reference', 'error', 'loops', 'T9'],
    ]);
    expect(aboutOf(setting({ turnouts: { g1: 'normal' } }))).toEqual([
      ['broken-reference', 'error', 'loops', 'g1'],
    ]);
    expect(aboutOf(setting({ toggles: { H1: true } }))).toEqual([
      ['broken-reference', 'error', 'loops', 'H1'],
    ]);
  });

  test('an end of an edge; the node that it should have met is then short of an edge', () => {
    expect(aboutOf(set('edges', 'e8', 'between', ['g4', 'n99']))).toEqual([
      ['broken-reference', 'error', 'e8', 'n99'],
      ['broken-reference', 'error', 'n2'],
    ]);
  });
});

describe('a node that does not fit its edges', () => {
  test('an end with two edges, a gap with one', () => {
    expect(aboutOf(set('edges', 'e8', 'between', ['n1', 'n2']))).toEqual([
      ['broken-reference', 'error', 'n1', 'e1', 'e8'],
      ['broken-reference', 'error', 'g4', 'e7'],
    ]);
  });

  test('a node without any edge', () => {
    expect(aboutOf(add('nodes', { id: 'j9', kind: 'joint', at: [0, 0] }))).toEqual([
      ['broken-reference', 'error', 'j9'],
    ]);
  });

  test('a turnout leg that is an edge elsewhere, or no edge at all, or named twice', () => {
    expect(aboutOf(set('nodes', 'T1', 'reverse', 'e8'))).toEqual([['broken-reference', 'error', 'T1', 'e8']]);
    expect(aboutOf(set('nodes', 'T1', 'trunk', 'e77'))).toEqual([['broken-reference', 'error', 'T1', 'e77']]);
    expect(aboutOf(set('nodes', 'T1', 'reverse', 'e3'))).toEqual([['broken-reference', 'error', 'T1', 'e3']]);
  });

  test('a crossing that is whole has no finding; a way elsewhere, an edge twice, a slip along one way have', () => {
    expect(found(...crossing({})).map((finding) => finding.code)).not.toContain('broken-reference');
    expect(found(...crossing({ slips: [['xp', 'xs']] })).map((finding) => finding.code)).not.toContain(
      'broken-reference',
    );
    const twice = [
      ['xp', 'xq'],
      ['xp', 'xs'],
    ];
    const away = [
      ['xp', 'xq'],
      ['xr', 'e1'],
    ];
    expect(aboutOf(...crossing({ ways: twice }))).toEqual([['broken-reference', 'error', 'X1', 'xp']]);
    expect(aboutOf(...crossing({ ways: away }))).toEqual([['broken-reference', 'error', 'X1', 'e1']]);
    expect(aboutOf(...crossing({ slips: [['xp', 'xq']] }))).toEqual([
      ['broken-reference', 'error', 'X1', 'xp', 'xq'],
    ]);
    expect(aboutOf(...crossing({ slips: [['xp', 'e1']] }))).toEqual([
      ['broken-reference', 'error', 'X1', 'xp', 'e1'],
    ]);
  });
});

test('while references are broken nothing else is told', () => {
  const findings = found(
    set('blocks', 'B1', 'source', { selector: 'K9' }),
    set('blocks', 'B2', 'feeders', []),
  );
  expect(findings.map((finding) => finding.code)).toEqual(['broken-reference']);
});

test('every finding has a sentence and a remedy', () => {
  for (const { says, remedy } of found(
    set('nodes', 'T1', 'reverse', 'e8'),
    set('edges', 'e8', 'between', ['n1', 'n2']),
  )) {
    expect(says).toMatch(/^[A-Z].*\.$/);
    expect(remedy).toMatch(/^[A-Z].*\.$/);
  }
});
