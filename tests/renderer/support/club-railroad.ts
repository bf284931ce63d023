/** An invented railroad for the screens' tests: two ovals cut open, crossovers, a siding, a yard, a spur with a holding section. */
import { railroadDocument } from '../../../shared-model/railroad/document.ts';
import { indexRailroad, type Railroad } from '../../../shared-model/railroad/railroad.ts';

type XY = [number, number];

const plain = (kind: 'gap' | 'end' | 'joint', id: string, at: XY, alsoAt?: XY) => ({
  id,
  kind,
  at,
  ...(alsoAt === undefined ? {} : { alsoAt }),
});
const turnout = (id: string, at: XY, trunk: string, normal: string, reverse: string) => ({
  id,
  kind: 'turnout' as const,
  at,
  trunk,
  normal,
  reverse,
});
const edge = (id: string, from: string, to: string, length: number, shape?: XY[]) => ({
  id,
  between: [from, to],
  length,
  ...(shape === undefined ? {} : { shape }),
});
const selector = (id: string) => ({
  id,
  name: id.slice(1),
  positions: ['off', '1', '2', '3', '4', '5', '6'],
  stops: true,
  contactAmps: 8,
});
const block = (id: string, name: string, source: object, onEdge: string) => ({
  id,
  name,
  source,
  feeders: [{ edge: onEdge }],
});
const train = (id: string, name: string, length: number) => ({ id, name, length, amps: 2.5 });

const KNOBS = ['K1', 'K2', 'K3', 'K5', 'K6', 'K7', 'K8', 'K9', 'K10', 'K11', 'K12', 'K13', 'K14'];

export function clubDocument() {
  return railroadDocument.parse({
    format: 'cabward-railroad/1',
    name: 'Two ovals and a yard',
    scaleRatio: 48,
    system: 'three-rail-ac',
    nodes: [
      plain('gap', 'gO0', [0, 2], [56, 2]),
      plain('gap', 'gO1', [14, 2]),
      plain('gap', 'gO2', [28, 2]),
      plain('gap', 'gO3', [42, 2]),
      plain('gap', 'gI0', [0, 4], [56, 4]),
      plain('gap', 'gI1', [14, 4]),
      plain('gap', 'gI2', [28, 4]),
      plain('gap', 'gI3', [42, 4]),
      turnout('T1', [3, 4], 'i1a', 'i1b', 's1'),
      turnout('T2', [12, 4], 'i1c', 'i1b', 's3'),
      plain('gap', 'gS1', [5, 6]),
      plain('gap', 'gS2', [10, 6]),
      turnout('T3', [16, 2], 'o2a', 'o2b', 'x1'),
      turnout('T4', [20, 4], 'i2b', 'i2a', 'x2'),
      plain('gap', 'gX1', [18, 3]),
      turnout('T5', [34, 4], 'i3a', 'i3b', 'x3'),
      turnout('T6', [38, 2], 'o3c', 'o3b', 'x4'),
      plain('gap', 'gX2', [36, 3]),
      turnout('T7', [30, 2], 'o3a', 'o3b', 'q1'),
      plain('gap', 'gQ1', [33, 0]),
      plain('gap', 'gQ2', [40, 0]),
      plain('end', 'nQ', [46, 0]),
      turnout('T8', [44, 4], 'i4a', 'i4b', 'y1'),
      plain('gap', 'gY0', [46, 6]),
      turnout('T9', [48, 6], 'y2', 'y3', 'y4'),
      turnout('T10', [50, 8], 'y4', 'y5', 'y6'),
      plain('gap', 'gY1', [50, 6]),
      plain('gap', 'gY2', [52, 8]),
      plain('gap', 'gY3', [52, 10]),
      plain('end', 'nY1', [60, 6]),
      plain('end', 'nY2', [60, 8]),
      plain('end', 'nY3', [60, 10]),
    ],
    edges: [
      edge('o1', 'gO0', 'gO1', 4200),
      edge('o2a', 'gO1', 'T3', 300),
      edge('o2b', 'T3', 'gO2', 3600),
      edge('o3a', 'gO2', 'T7', 300),
      edge('o3b', 'T7', 'T6', 2400),
      edge('o3c', 'T6', 'gO3', 900),
      edge('o4', 'gO3', 'gO0', 4200),
      edge('i1a', 'gI0', 'T1', 900),
      edge('i1b', 'T1', 'T2', 2600),
      edge('i1c', 'T2', 'gI1', 400),
      edge('s1', 'T1', 'gS1', 350),
      edge('s2', 'gS1', 'gS2', 1900),
      edge('s3', 'gS2', 'T2', 350),
      edge('i2a', 'gI1', 'T4', 1500),
      edge('i2b', 'T4', 'gI2', 2400),
      edge('x1', 'T3', 'gX1', 300),
      edge('x2', 'gX1', 'T4', 300),
      edge('i3a', 'gI2', 'T5', 1800),
      edge('i3b', 'T5', 'gI3', 2100),
      edge('x3', 'T5', 'gX2', 300),
      edge('x4', 'gX2', 'T6', 300),
      edge('q1', 'T7', 'gQ1', 500, [[32, 0]]),
      edge('q2', 'gQ1', 'gQ2', 1900),
      edge('q3', 'gQ2', 'nQ', 1500),
      edge('i4a', 'gI3', 'T8', 400),
      edge('i4b', 'T8', 'gI0', 3800),
      edge('y1', 'T8', 'gY0', 350),
      edge('y2', 'gY0', 'T9', 300),
      edge('y3', 'T9', 'gY1', 300),
      edge('y4', 'T9', 'T10', 400),
      edge('y5', 'T10', 'gY2', 300),
      edge('y6', 'T10', 'gY3', 400),
      edge('y7', 'gY1', 'nY1', 2200),
      edge('y8', 'gY2', 'nY2', 1900),
      edge('y9', 'gY3', 'nY3', 1900),
    ],
    supplies: [
      { id: 'north', name: 'North bench', ratedVa: 275, maxVolts: 18, impedanceOhms: 0.2, breakerAmps: 10 },
      { id: 'south', name: 'South bench', ratedVa: 275, maxVolts: 18, impedanceOhms: 0.2, breakerAmps: 10 },
    ],
    throttles: ['1', '2', '3', '4', '5', '6'].map((id) => ({
      id,
      name: `Cab ${id}`,
      supply: id < '4' ? 'north' : 'south',
      maxAmps: 8,
    })),
    selectors: KNOBS.map(selector),
    toggles: [{ id: 'H1', name: 'Tank spur end' }],
    blocks: [
      block('B1', 'Outer west', { selector: 'K1' }, 'o1'),
      block('B2', 'Outer middle', { selector: 'K2' }, 'o2b'),
      block('B3', 'Outer east', { selector: 'K3' }, 'o3b'),
      block('B4', 'Outer back', { throttle: '3' }, 'o4'),
      block('B5', 'Inner west', { selector: 'K5' }, 'i1b'),
      block('B6', 'Inner middle', { selector: 'K6' }, 'i2b'),
      block('B7', 'Inner east', { selector: 'K7' }, 'i3a'),
      block('B8', 'Inner back', { selector: 'K8' }, 'i4b'),
      block('B9', 'Siding', { selector: 'K9' }, 's2'),
      block('B10', 'Yard lead', { selector: 'K10' }, 'y2'),
      block('B11', 'Yard one', { selector: 'K11' }, 'y7'),
      block('B12', 'Yard two', { selector: 'K12' }, 'y8'),
      block('B13', 'Yard three', { selector: 'K13' }, 'y9'),
      block('B14', 'Tank spur', { selector: 'K14' }, 'q2'),
      block('B15', 'Spur end', { toggle: 'H1', from: 'B14' }, 'q3'),
    ],
    masterSwitch: 'by the door',
    trains: [
      train('t7', 'No. 7', 1400),
      train('t12', 'No. 12', 1900),
      train('t31', 'Milk extra', 1200),
      train('t40', 'No. 40', 2600),
      train('t55', 'Yard goat', 500),
      train('t60', 'Railcar', 450),
    ],
    places: [
      { id: 'tank', name: 'Tank', order: 3, at: [{ edge: 'q2', toward: 'gQ2' }] },
      { id: 'yard', name: 'Fenwold Yard', order: 4, at: [{ edge: 'y9', toward: 'nY3' }] },
      { id: 'meadow', name: 'Meadow', order: 1, at: [{ edge: 's2', toward: 'gS1' }] },
    ],
    settings: [],
  });
}

export const clubRailroad = (): Railroad => indexRailroad(clubDocument());
