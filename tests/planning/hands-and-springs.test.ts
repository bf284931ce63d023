/** What costs the hands nothing: a turnout that the train moves itself, an order of throws without idle time; and a train over its own way. */
import { describe, expect, it } from 'vitest';
import { drawsFrom } from '../../shared-model/chance.ts';
import { planFaults } from '../../shared-model/planning/checker/check-plan.ts';
import { USUAL_OPTIONS } from '../../shared-model/planning/plan/options.ts';
import { plan } from '../../shared-model/planning/plan.ts';
import { safe } from '../../shared-model/planning/safe.ts';
import { parseSituation } from '../../shared-model/planning/situation.ts';
import type { RailroadDocument } from '../../shared-model/railroad/document.ts';
import { indexRailroad } from '../../shared-model/railroad/railroad.ts';
import {
  holdDocument,
  plainNodes,
  type SmallTrack,
  smallDocument,
  turnout,
} from '../support/line-of-track.ts';

const trains = ['t1', 't2'].map((id) => ({ id, name: id, length: 1000, amps: 1 }));

function planOf(document: RailroadDocument, json: object, options = USUAL_OPTIONS) {
  const railroad = indexRailroad(document);
  const situation = parseSituation(railroad, json);
  if (!situation.ok) throw new Error(situation.malformed.says);
  const answer = plan(railroad, situation.value, options, {
    draw: drawsFrom(1),
    shouldStop: () => false,
    patience: 300,
  });
  expect(planFaults(railroad, situation.value, answer, options)).toEqual([]);
  return answer;
}

/** Two legs that meet in a self-lining turnout T, which stands for the upper one; the stem behind it parts again for two tracks. */
const SPRING: SmallTrack = {
  nodes: [
    ...plainNodes('n1', 'n2', 'n3', 'n4', 'g1', 'g2', 'g3', 'g4'),
    { ...turnout('T', 'e3', 'e4', 'e5'), selfLining: true } as ReturnType<typeof turnout>,
    turnout('S', 'e3', 'e6', 'e7'),
  ],
  edges: [
    ['e1', 'n1', 'g1', 2000],
    ['e2', 'n2', 'g2', 2000],
    ['e4', 'g1', 'T', 300],
    ['e5', 'g2', 'T', 300],
    ['e3', 'T', 'S', 2000],
    ['e6', 'S', 'g3', 300],
    ['e7', 'S', 'g4', 300],
    ['e8', 'g3', 'n3', 2000],
    ['e9', 'g4', 'n4', 2000],
  ],
  blocks: { Upper: 'e1', Lower: 'e2', Stem: 'e3', East: 'e8', Side: 'e9' },
};

describe('a self-lining turnout', () => {
  const document = smallDocument(SPRING, { trains });
  const t1 = { train: 't1', edge: 'e2', toward: 'g2', cab: '1', to: 'East' };

  it('is not thrown for a train that trails it', () => {
    const answer = planOf(document, { trains: [t1] });
    expect(answer.throws.map(({ id }) => id).sort()).toEqual(['K-East', 'K-Stem']);
    expect(answer.proven).toBe(true);
  });

  it('stands as that train left it, so that the next one that faces it has it thrown back', () => {
    const t2 = { train: 't2', edge: 'e9', toward: 'g4', cab: '2', to: 'Upper', notBefore: 60 };
    const { throws } = planOf(document, { trains: [t1, t2] });
    expect(throws.filter(({ id }) => id === 'T')).toMatchObject([
      { to: 'normal', waitsFor: [{ train: 't1', block: 'Stem' }] },
    ]);
  });
});

it('throws first what can be thrown first: a toggle before the selector that a train still bars', () => {
  const apart: SmallTrack = {
    nodes: plainNodes('n1', 'g1', 'n2', 'n3', 'g2', 'n4'),
    edges: [
      ['e1', 'n1', 'g1', 2000],
      ['e2', 'g1', 'n2', 2000],
      ['e3', 'n3', 'g2', 2000],
      ['e4', 'g2', 'n4', 2000],
    ],
    blocks: { West: 'e1', Hold: 'e2', Middle: 'e3', East: 'e4' },
  };
  const document = holdDocument(apart);
  const answer = planOf(
    document,
    {
      trains: [
        { train: 't1', edge: 'e3', toward: 'g2', cab: '1', to: 'East' },
        { train: 't2', edge: 'e1', toward: 'g1', cab: '2', to: 'Hold' },
      ],
    },
    { ...USUAL_OPTIONS, throwSeconds: 8 },
  );
  // East 0 to 8, the toggle 8 to 16 while t1 leaves the middle, its selector 16 to 24, two seconds of margin.
  expect(answer.throws.map(({ id, at }) => [id, at])).toEqual([
    ['K-East', 0],
    ['H', 8],
    ['K-Middle', 16],
  ]);
  expect(answer.moves.find(({ train }) => train === 't2')?.start).toBe(26);
});

it('runs over an insulated crossing that the train itself lies on, where its tail is off before its head is there', () => {
  const loop: SmallTrack = {
    nodes: [
      ...plainNodes('n1', 'g1', 'g2', 'n2'),
      {
        id: 'X',
        kind: 'crossing',
        insulated: true,
        ways: [
          ['e1', 'e2'],
          ['e3', 'e4'],
        ],
      } as ReturnType<typeof turnout>,
    ],
    edges: [
      ['e1', 'n1', 'X', 2000],
      ['e2', 'X', 'g1', 800],
      ['e3', 'g1', 'X', 2000],
      ['e4', 'X', 'g2', 800],
      ['e5', 'g2', 'n2', 2000],
    ],
    blocks: { Tail: 'e1', Loop: 'e3', East: 'e5' },
  };
  const answer = planOf(smallDocument(loop, { trains }), {
    trains: [{ train: 't1', edge: 'e2', toward: 'g1', cab: '1', to: 'East' }],
  });
  expect(answer.moves.map(({ edges }) => edges)).toEqual([['e3', 'e4', 'e5']]);
});

it('is impossible where a section would have to be fed again under its train, though one train at a time would do', () => {
  const line: SmallTrack = {
    nodes: plainNodes('n1', 'g1', 'g2', 'g3', 'n2'),
    edges: [
      ['e1', 'n1', 'g1', 2000],
      ['e2', 'g1', 'g2', 2000],
      ['e3', 'g2', 'g3', 2000],
      ['e4', 'g3', 'n2', 2000],
    ],
    blocks: { Hold: 'e1', West: 'e2', Middle: 'e3', East: 'e4' },
  };
  const document = holdDocument(line);
  const json = {
    trains: [
      { train: 't1', edge: 'e1', toward: 'g1', cab: '1', to: 'West' },
      { train: 't2', edge: 'e2', toward: 'g2', cab: '2', to: 'East' },
    ],
  };
  const railroad = indexRailroad(document);
  const situation = parseSituation(railroad, json);
  if (!situation.ok) throw new Error(situation.malformed.says);
  expect(safe(railroad, situation.value).verdict).toBe('safe');
  // The middle is wanted for t2 while its selector feeds t1 in the section; put off under t1, the toggle is never put on again.
  const effort = { draw: drawsFrom(1), shouldStop: () => false };
  expect(plan(railroad, situation.value, USUAL_OPTIONS, effort).verdict).toBe('impossible');
});
