/** The structural audit on small railroads made wrong on purpose, one fault at a time. */
import { describe, expect, test } from 'vitest';
import { audit } from '../../shared-model/railroad/audit.ts';
import { type RailroadDocument, railroadDocument } from '../../shared-model/railroad/document.ts';
import type { Finding, FindingCode } from '../../shared-model/refusal.ts';
import { passingSidingExample } from '../support/example.ts';
import { plainNodes, type SmallTrack, smallDocument, turnout } from '../support/line-of-track.ts';

const of = (document: RailroadDocument, code: FindingCode): readonly Finding[] =>
  audit(document).filter((finding) => finding.code === code);
const about = (findings: readonly Finding[]) => findings.map((finding) => finding.about);

/** n1 -a- g1 -b- j1 -c- g2 -d- n2 */
const line: SmallTrack = {
  nodes: plainNodes('n1', 'g1', 'j1', 'g2', 'n2'),
  edges: [
    ['a', 'n1', 'g1', 1000],
    ['b', 'g1', 'j1', 800],
    ['c', 'j1', 'g2', 700],
    ['d', 'g2', 'n2', 1000],
  ],
  blocks: { A: 'a', B: 'b', D: 'd' },
};
const train = (length: number) => ({ id: 't1', name: 'No. 1', length, amps: 2 });

test('the passing siding of the design has nothing but its one straight-wired block', () => {
  expect(audit(passingSidingExample)).toMatchObject([
    { code: 'one-cab-block', severity: 'info', about: ['B4'] },
  ]);
});

test('a plain line of three blocks has no finding', () => {
  expect(audit(smallDocument(line))).toEqual([]);
});

describe('sources', () => {
  test('two-sources names both blocks and the track from feeder to feeder, on which a gap is missing', () => {
    const document = smallDocument({ ...line, blocks: { ...line.blocks, C: 'c' } });
    const [finding, more] = of(document, 'two-sources');
    expect(finding).toMatchObject({ severity: 'error', about: ['B', 'C', 'b', 'c'] });
    expect(finding?.remedy).toContain('gap');
    expect(more).toBeUndefined();
  });

  test('two-sources takes the shortest of the ways round', () => {
    const ring = smallDocument({
      nodes: plainNodes('j1', 'j2', 'j3', 'j4'),
      edges: [
        ['a', 'j1', 'j2', 500],
        ['b', 'j2', 'j3', 400],
        ['c', 'j3', 'j4', 500],
        ['d', 'j4', 'j1', 300],
      ],
      blocks: { A: 'a', C: 'c' },
    });
    expect(about(of(ring, 'two-sources'))).toEqual([['A', 'C', 'a', 'd', 'c']]);
  });

  test('of three blocks on one section it names the two tracks on which gaps are missing', () => {
    const document = smallDocument({
      nodes: plainNodes('n1', 'j1', 'j2', 'n2'),
      edges: [
        ['a', 'n1', 'j1', 500],
        ['b', 'j1', 'j2', 500],
        ['c', 'j2', 'n2', 500],
      ],
      blocks: { A: 'a', C: 'c', B: 'b' },
    });
    expect(about(of(document, 'two-sources'))).toEqual([
      ['A', 'B', 'a', 'b'],
      ['B', 'C', 'b', 'c'],
    ]);
  });

  test('two feeders on one edge are parted by a gap in that edge', () => {
    const document = smallDocument({ ...line, blocks: { ...line.blocks, D2: 'd' } });
    expect(of(document, 'two-sources')).toMatchObject([
      {
        about: ['D', 'D2', 'd'],
        remedy: 'Cut a gap in edge d between the two feeders, or take one of them off.',
      },
    ]);
  });

  test('dead-track names the edges of a section without a feeder', () => {
    const { B: _, ...blocks } = line.blocks;
    expect(of(smallDocument({ ...line, blocks }), 'dead-track')).toMatchObject([
      { severity: 'error', about: ['b', 'c'] },
    ]);
  });

  test('split-block names the block whose feeders lie on two sections', () => {
    const document = smallDocument(line);
    const split = railroadDocument.parse({
      ...document,
      blocks: document.blocks
        .filter((block) => block.id !== 'D')
        .map((block) => (block.id === 'A' ? { ...block, feeders: [{ edge: 'a' }, { edge: 'd' }] } : block)),
    });
    expect(of(split, 'split-block')).toMatchObject([{ severity: 'error', about: ['A', 'a', 'd'] }]);
    expect(of(split, 'dead-track')).toEqual([]);
  });

  const toggled = (sources: Readonly<Record<string, { toggle: string; from: string } | undefined>>) => {
    const document = smallDocument(line);
    return railroadDocument.parse({
      ...document,
      toggles: ['H1', 'H2', 'H3'].map((id) => ({ id, name: id })),
      blocks: document.blocks.map((block) => ({ ...block, source: sources[block.id] ?? block.source })),
    });
  };

  test('feed-loop names the toggles and blocks of the circle, once, and not what hangs on it', () => {
    const circle = toggled({
      A: { toggle: 'H1', from: 'B' },
      B: { toggle: 'H2', from: 'A' },
      D: { toggle: 'H3', from: 'A' },
    });
    expect(of(circle, 'feed-loop')).toMatchObject([{ severity: 'error', about: ['H1', 'H2', 'A', 'B'] }]);
  });

  test('a toggle that feeds a block from itself is the smallest circle', () => {
    expect(about(of(toggled({ A: { toggle: 'H1', from: 'A' } }), 'feed-loop'))).toEqual([['H1', 'A']]);
  });

  test('a section behind a section behind a selector is no circle', () => {
    const chain = toggled({ B: { toggle: 'H1', from: 'A' }, D: { toggle: 'H2', from: 'B' } });
    expect(of(chain, 'feed-loop')).toEqual([]);
  });

  test('one-cab-block tells of each block wired straight to a throttle', () => {
    const document = smallDocument(line);
    const straight = railroadDocument.parse({
      ...document,
      blocks: document.blocks.map((block) => ({ ...block, source: { throttle: '1' } })),
    });
    expect(of(straight, 'one-cab-block').map(({ severity, about: ids }) => [severity, ...ids])).toEqual([
      ['info', 'A'],
      ['info', 'B'],
      ['info', 'D'],
    ]);
  });
});

describe('travel', () => {
  test('unreachable names the smaller piece of track in two pieces', () => {
    const document = smallDocument({
      nodes: [...line.nodes, ...plainNodes('n3', 'n4')],
      edges: [...line.edges, ['x', 'n3', 'n4', 600]],
      blocks: { ...line.blocks, X: 'x' },
    });
    expect(of(document, 'unreachable')).toMatchObject([{ severity: 'warning', about: ['x'] }]);
  });

  const diamond = (slips?: readonly (readonly [string, string])[]) =>
    smallDocument({
      nodes: [
        ...plainNodes('n1', 'n2', 'n3', 'n4'),
        {
          id: 'X1',
          kind: 'crossing',
          ways: [
            ['a', 'b'],
            ['c', 'd'],
          ],
          ...(slips === undefined ? {} : { slips: slips.map(([from, to]): [string, string] => [from, to]) }),
        },
      ],
      edges: [
        ['a', 'n1', 'X1', 500],
        ['b', 'X1', 'n2', 500],
        ['c', 'n3', 'X1', 400],
        ['d', 'X1', 'n4', 400],
      ],
      blocks: { All: 'a' },
    });

  test('the two ways of a crossing are not joined for a train, though they are electrically', () => {
    expect(about(of(diamond(), 'unreachable'))).toEqual([['c', 'd']]);
    expect(of(diamond(), 'dead-track')).toEqual([]);
  });

  test('a slip joins them', () => {
    expect(of(diamond([['a', 'd']]), 'unreachable')).toEqual([]);
  });

  test('short-block tells of blocks in which the longest train does not fit: block B has 1500 mm in a row', () => {
    const withTrain = (length: number) =>
      smallDocument(line, { trains: [train(500), { ...train(length), id: 't2' }] });
    expect(about(of(withTrain(1000), 'short-block'))).toEqual([]);
    expect(about(of(withTrain(1001), 'short-block'))).toEqual([['A'], ['D']]);
    expect(about(of(withTrain(1500), 'short-block'))).toEqual([['A'], ['D']]);
    expect(about(of(withTrain(1501), 'short-block'))).toEqual([['A'], ['B'], ['D']]);
    expect(of(withTrain(1501), 'short-block')[0]?.severity).toBe('warning');
  });

  test('the legs of a turnout are not a run of track: from leg to leg no train can stand', () => {
    const document = smallDocument(
      {
        nodes: [...plainNodes('n1', 'n2', 'n3'), turnout('T1', 'a', 'b', 'c')],
        edges: [
          ['a', 'n1', 'T1', 100],
          ['b', 'T1', 'n2', 600],
          ['c', 'T1', 'n3', 600],
        ],
        blocks: { A: 'a' },
      },
      { trains: [train(800)] },
    );
    expect(about(of(document, 'short-block'))).toEqual([['A']]);
  });
});

/** n1 -a- T1, whose legs are the ends of a balloon: b, gap, c (1200 mm), gap, d. */
const balloon = (system: 'three-rail-ac' | 'two-rail-dc', gaps: boolean, longest: number) =>
  smallDocument(
    {
      nodes: [
        ...plainNodes('n1', 'g0'),
        turnout('T1', 'a2', 'b', 'd'),
        ...plainNodes(gaps ? 'g1' : 'j1', gaps ? 'g2' : 'j2'),
      ],
      edges: [
        ['a', 'n1', 'g0', 1500],
        ['a2', 'g0', 'T1', 100],
        ['b', 'T1', gaps ? 'g1' : 'j1', 300],
        ['c', gaps ? 'g1' : 'j1', gaps ? 'g2' : 'j2', 1200],
        ['d', gaps ? 'g2' : 'j2', 'T1', 300],
      ],
      blocks: gaps ? { A: 'a', Throat: 'b', Loop: 'c' } : { A: 'a', Throat: 'b' },
    },
    { system, trains: [train(longest)] },
  );

describe('reversing sections', () => {
  test('a balloon on three-rail is information, told once, with the turnout and the edges of the way round', () => {
    expect(of(balloon('three-rail-ac', true, 900), 'reversing-section')).toMatchObject([
      { severity: 'info', about: ['T1', 'b', 'c', 'd'] },
    ]);
  });

  test('on two-rail it is an error without gaps', () => {
    expect(of(balloon('two-rail-dc', false, 900), 'reversing-section')).toMatchObject([
      { severity: 'error' },
    ]);
  });

  test('on two-rail two gaps around a block of its own make it information, if the longest train fits between', () => {
    expect(of(balloon('two-rail-dc', true, 1200), 'reversing-section')).toMatchObject([{ severity: 'info' }]);
    expect(of(balloon('two-rail-dc', true, 1201), 'reversing-section')).toMatchObject([
      { severity: 'error' },
    ]);
  });

  test('an oval alone turns nothing round', () => {
    const oval = smallDocument({
      nodes: plainNodes('g1', 'g2'),
      edges: [
        ['a', 'g1', 'g2', 1000],
        ['b', 'g2', 'g1', 1000],
      ],
      blocks: { A: 'a', B: 'b' },
    });
    expect(of(oval, 'reversing-section')).toEqual([]);
  });

  test('nor does a triangle of turnouts with stub ends, in which a train has to back up', () => {
    const triangle = smallDocument({
      nodes: [
        ...plainNodes('n1', 'n2', 'n3'),
        turnout('T1', 's1', 'x', 'y'),
        turnout('T2', 's2', 'x', 'z'),
        turnout('T3', 's3', 'y', 'z'),
      ],
      edges: [
        ['s1', 'n1', 'T1', 500],
        ['s2', 'n2', 'T2', 500],
        ['s3', 'n3', 'T3', 500],
        ['x', 'T1', 'T2', 500],
        ['y', 'T1', 'T3', 500],
        ['z', 'T2', 'T3', 500],
      ],
      blocks: { A: 's1' },
    });
    expect(of(triangle, 'reversing-section')).toEqual([]);
  });

  test('a way beside the isolated one is found, too', () => {
    const beside = smallDocument(
      {
        nodes: [
          ...plainNodes('n1', 'g1', 'g2'),
          turnout('T1', 'a', 'b', 'd'),
          turnout('T2', 'b', 'c1', 'w'),
          turnout('T3', 'd', 'c3', 'w'),
        ],
        edges: [
          ['a', 'n1', 'T1', 900],
          ['b', 'T1', 'T2', 300],
          ['c1', 'T2', 'g1', 100],
          ['c2', 'g1', 'g2', 1000],
          ['c3', 'g2', 'T3', 100],
          ['w', 'T2', 'T3', 2000],
          ['d', 'T3', 'T1', 300],
        ],
        blocks: { Throat: 'b', Loop: 'c2' },
      },
      { system: 'two-rail-dc', trains: [train(900)] },
    );
    expect(of(beside, 'reversing-section').map(({ severity, about: ids }) => [severity, ...ids])).toEqual([
      ['error', 'T1', 'b', 'w', 'd'],
      ['info', 'T1', 'b', 'c1', 'c2', 'c3', 'd'],
    ]);
  });
});

test('errors come first, then warnings, then information', () => {
  const document = smallDocument({ ...line, blocks: { A: 'a', D: 'd' } }, { trains: [train(2000)] });
  const straight = {
    ...document,
    blocks: document.blocks.map((block) => ({ ...block, source: { throttle: '1' } })),
  };
  expect(audit(railroadDocument.parse(straight)).map(({ severity, code }) => `${severity} ${code}`)).toEqual([
    'error dead-track',
    'warning short-block',
    'warning short-block',
    'info one-cab-block',
    'info one-cab-block',
  ]);
});
