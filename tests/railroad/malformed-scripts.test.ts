/** Twenty differently damaged scripts: twenty different sentences, each with the number of its line and what was expected there. */
import { describe, expect, test } from 'vitest';
import { indexRailroad } from '../../shared-model/railroad/railroad.ts';
import { parseScript } from '../../shared-model/session/script.ts';
import { passingSidingExample } from '../support/example.ts';

const railroad = indexRailroad(passingSidingExample);
const HEAD = ['# an evening', '{"at": 0, "do": "open-session"}', '', '{"at": 5, "do": "start"}'];
const LINE = HEAD.length + 1;

const wrongLine = (line: string) => {
  const script = parseScript(railroad, [...HEAD, line, '{"at": 90, "do": "resume"}'].join('\n'));
  if (script.ok) throw new Error('expected the damage to be found');
  return script;
};

const DAMAGES: readonly (readonly [line: string, says: RegExp])[] = [
  ['{"at": 6, "do": "start"', /valid JSON/],
  ['start', /valid JSON/],
  ['[6, "start"]', /an object like/],
  ['{"do": "start"}', /\$\.at: expected seconds/],
  ['{"at": "6", "do": "start"}', /\$\.at: expected seconds/],
  ['{"at": 4, "do": "start"}', /\$\.at: expected 5 or more/],
  ['{"at": 6}', /\$\.do: expected/],
  ['{"at": 6, "do": "launch"}', /\$\.do: expected .*not "launch"/],
  ['{"at": 6, "do": "start", "now": true}', /\$\.now: expected no such field/],
  ['{"at": 6, "do": "request-move", "train": "t7"}', /\$\.to: expected string, but it is missing/],
  ['{"at": 6, "do": "request-move", "train": 7, "to": "B4"}', /\$\.train: expected string, not number/],
  ['{"at": 6, "do": "request-move", "train": "t7", "to": "B4", "via": "B2"}', /\$\.via: expected array/],
  ['{"at": 6, "do": "request-move", "train": "t7", "to": "B4", "via": ["B2", 3]}', /\$\.via\[1\]: expected/],
  ['{"at": 6, "do": "request-move", "train": "t99", "to": "B4"}', /t99/],
  ['{"at": 6, "do": "request-move", "train": "t7", "to": "B99"}', /B99/],
  ['{"at": 6, "do": "throw-turnout", "turnout": "T1", "position": "left"}', /\$\.position: expected one of/],
  ['{"at": 6, "do": "set-toggle", "toggle": "H1", "on": "yes"}', /\$\.on: expected boolean, not string/],
  ['{"at": 6, "do": "grant-limits", "train": "t7", "blocks": []}', /\$\.blocks: expected at least 1/],
  [
    '{"at": 6, "do": "override", "why": "x", "order": {"do": "settle", "block": "B1"}}',
    /\$\.order\.state: expected/,
  ],
  [
    '{"at": 6, "do": "retract", "entry": 3, "why": "typed"}',
    /\$\.entry: expected the number of an earlier input/,
  ],
];

describe('a damaged script', () => {
  test.each(DAMAGES)('%s is told with its line', (line, says) => {
    const wrong = wrongLine(line);
    expect(wrong.line).toBe(LINE);
    expect(wrong.says).toMatch(says);
    expect(wrong.says).not.toContain('\n');
  });

  test('twenty damages have twenty different messages', () => {
    const messages = DAMAGES.map(([line]) => wrongLine(line).says);
    expect(messages).toHaveLength(20);
    expect(new Set(messages).size).toBe(20);
  });

  test('the same lines undamaged are a script', () => {
    expect(parseScript(railroad, HEAD.join('\n'))).toMatchObject({ ok: true });
  });
});
