/** Thirty differently damaged railroad files: thirty different sentences, each naming its place and what was expected there. */
import { describe, expect, test } from 'vitest';
import {
  MOST_RAILROAD_CHARACTERS,
  parseRailroadText,
  railroadTextProblems,
} from '../../shared-model/railroad/parse-railroad.ts';
import example from '../support/passing-siding.railroad.json' with { type: 'json' };

type Json = string | number | boolean | null | readonly Json[] | { readonly [key: string]: Json };

/** The example with the value at a path exchanged; undefined takes it out. */
function damaged(path: readonly (string | number)[], value: Json | undefined): string {
  const whole = structuredClone(example) as unknown as Record<string | number, unknown>;
  let holder = whole;
  for (const step of path.slice(0, -1)) holder = holder[step] as Record<string | number, unknown>;
  const last = path.at(-1) ?? '';
  if (value === undefined) delete holder[last];
  else holder[last] = value;
  return JSON.stringify(whole);
}

const id = 'loops';
const settings = (change: Record<string, Json>): Json => [
  { id, name: 'Loops', selectors: {}, turnouts: {}, toggles: {}, ...change },
];

type Damage = readonly [
  path: readonly (string | number)[],
  value: Json | undefined,
  place: string,
  says: RegExp,
];
const DAMAGES: readonly Damage[] = [
  [['format'], 'cabward-railroad/2', '$.format', /"cabward-railroad\/1"/],
  [['scaleRatio'], 0, '$.scaleRatio', /more than 0/],
  [['system'], 'three-rail', '$.system', /"three-rail-ac", "two-rail-dc"/],
  [['nodes'], undefined, '$.nodes', /array, but it is missing/],
  [['edges'], {}, '$.edges', /array, not object/],
  [['color'], 'red', '$.color', /no such field/],
  [['nodes', 1], 4, '$.nodes[1]', /object, not number/],
  [['nodes', 1, 'kind'], 'gapp', '$.nodes[1].kind', /one of "end", "joint", "gap", "turnout", "crossing"/],
  [['nodes', 1, 'at'], [1, 2, 3], '$.nodes[1].at', /at most 2 items/],
  [['nodes', 1, 'at'], [1], '$.nodes[1].at', /at least 2 items/],
  [['nodes', 1, 'at', 0], '6', '$.nodes[1].at[0]', /number, not string/],
  [['nodes', 2, 'trunk'], undefined, '$.nodes[2].trunk', /string, but it is missing/],
  [['nodes', 2, 'selfLining'], 1, '$.nodes[2].selfLining', /boolean, not number/],
  [['nodes', 0, 'trunk'], 'e1', '$.nodes[0].trunk', /no such field/],
  [['edges', 3, 'length'], -5, '$.edges[3].length', /more than 0/],
  [['edges', 4, 'length'], '2000', '$.edges[4].length', /number, not string/],
  [['edges', 5, 'length'], 1e12, '$.edges[5].length', /at most 10 km/],
  [['edges', 3, 'between'], ['T1', 'T1'], '$.edges[3].between', /two different nodes/],
  [['edges', 2, 'id'], 'g1', '$.edges[2].id', /used once, but "g1" is also the id of nodes\[1\]/],
  [['edges', 2, 'id'], '', '$.edges[2].id', /at least one character/],
  [['supplies', 0, 'wave'], 'square', '$.supplies[0].wave', /one of "sine", "chopped", "dc", "unknown"/],
  [['throttles', 1, 'id'], 'off', '$.throttles[1].id', /other than "off"/],
  [['selectors', 0, 'positions'], [], '$.selectors[0].positions', /at least one position/],
  [['selectors', 0, 'positions', 1], 1, '$.selectors[0].positions[1]', /a throttle id, "off", or null/],
  [['selectors', 1, 'stops'], 'yes', '$.selectors[1].stops', /boolean, not string/],
  [['blocks', 0, 'source'], { selector: 'K1', throttle: '1' }, '$.blocks[0].source', /one source/],
  [['blocks', 1, 'feeders', 0, 'wire', 'awg'], 14.5, '$.blocks[1].feeders[0].wire.awg', /a whole number/],
  [['commonBus'], { awg: 12 }, '$.commonBus.run', /number, but it is missing/],
  [['trains', 0, 'reverseUnit'], 'auto', '$.trains[0].reverseUnit', /one of "sequence", "pulse"/],
  [['settings'], settings({ turnouts: { T1: 'left' } }), '$.settings[0].turnouts.T1', /"normal", "reverse"/],
];

const parsed = (text: string) => {
  const result = parseRailroadText(text);
  if (result.ok) throw new Error('expected the damage to be found');
  return result;
};

describe('a damaged railroad file', () => {
  test.each(DAMAGES)('%j set to %j is found at %s', (path, value, place, says) => {
    const wrong = parsed(damaged(path, value));
    expect(wrong.path).toBe(place);
    expect(wrong.says).toMatch(says);
    expect(wrong.says).toMatch(/^expected [^\n]*$/);
  });

  test('thirty damages have thirty different messages', () => {
    const messages = DAMAGES.map(([path, value]) => {
      const wrong = parsed(damaged(path, value));
      return `${wrong.path}: ${wrong.says}`;
    });
    expect(messages).toHaveLength(30);
    expect(new Set(messages).size).toBe(30);
  });

  test('the example itself is none, with a byte order mark or without', () => {
    const text = JSON.stringify(example);
    expect(parseRailroadText(text).ok).toBe(true);
    expect(parseRailroadText(`\ufeff${text}`).ok).toBe(true);
  });
});

describe('a file that is no railroad at all', () => {
  test('no JSON is told with line and column', () => {
    const text = JSON.stringify(example, null, 2).replace('"scaleRatio"', 'scaleRatio');
    expect(parsed(text)).toMatchObject({
      path: 'line 4 column 3',
      says: expect.stringMatching(/^expected valid JSON/),
    });
    expect(parsed('')).toMatchObject({ path: 'line 1 column 1', says: expect.stringContaining('empty') });
  });

  test.each([
    ['{"format":}', 11],
    ['{"a":1, "b": tru }', 17],
    ['[1,]', 4],
    [`{"name":"${'x'.repeat(60)}","scaleRatio":forty,"system":"${'y'.repeat(60)}"}`, 86],
  ])('the place in %j is that of the token that does not belong', (text, column) => {
    expect(parsed(text).path).toBe(`line 1 column ${column}`);
  });

  test('a file cut short is told at its end', () => {
    const text = JSON.stringify(example, null, 2).split('\n').slice(0, 40).join('\n');
    expect(parsed(text).path).toMatch(/^line 40 /);
  });

  test.each([
    ['[]', /object, not array/],
    ['"railroad"', /object, not string/],
    ['null', /object, not null/],
    ['7', /object, not number/],
  ])('%s is not an object', (text, says) => {
    expect(parsed(text)).toMatchObject({ path: '$', says: expect.stringMatching(says) });
  });

  test('what is nested without end or longer than any railroad is refused before it is looked into', () => {
    const deep = '['.repeat(5000) + ']'.repeat(5000);
    expect(parsed(deep).says).toContain('levels of nesting');
    expect(parsed(`"${'x'.repeat(MOST_RAILROAD_CHARACTERS)}"`)).toMatchObject({
      path: '$',
      says: expect.stringContaining('characters'),
    });
  });

  test('text that cannot be kept as UTF-8 is refused where it is', () => {
    expect(parsed(damaged(['name'], 'Passing \ud800 siding')).path).toBe('$.name');
  });
});

describe('for somebody who mends a file by hand', () => {
  test('every wrong place is told at once, each with what was expected there', () => {
    const document = {
      ...example,
      scaleRatio: -1,
      edges: example.edges.map((edge, index) => (index === 1 ? { ...edge, length: 'long' } : edge)),
      nodes: example.nodes.map((node, index) => (index === 0 ? { ...node, kind: 'loop' } : node)),
    };
    expect(railroadTextProblems(JSON.stringify(document)).map(({ path }) => path)).toEqual([
      '$.scaleRatio',
      '$.nodes[0].kind',
      '$.edges[1].length',
    ]);
  });

  test('a text that is no JSON is wrong at one place; a good one nowhere', () => {
    expect(railroadTextProblems('{"format": ')).toHaveLength(1);
    expect(railroadTextProblems(JSON.stringify(example))).toEqual([]);
  });
});
