/** `cabward safe`, `plan` and `capacity` on the passing siding: a meet at the siding, and what is said of wrong situations and calls. */
import { writeFileSync } from 'node:fs';
import { join } from 'node:path';
import { describe, expect, it } from 'vitest';
import type { CapacityAnswer } from '../../shared-model/planning/capacity-answer.ts';
import { passingSidingExample } from '../support/example.ts';
import { cabward, cabwardJson, supportFile } from '../support/run-cabward.ts';
import { temporaryFolder } from '../support/temporary-folder.ts';

const RAILROAD = supportFile('passing-siding.railroad.json');
const written = (name: string, value: unknown): string => {
  const file = join(temporaryFolder(), `${name}.json`);
  writeFileSync(file, JSON.stringify(value));
  return file;
};
const west = { train: 't7', edge: 'e1', toward: 'g1', cab: '1', to: 'B2' };
const siding = { train: 't12', edge: 'e5', toward: 'g2', cab: '2' };

describe('safe', () => {
  it('finds the order of a train that runs to the main while the other is parked in the siding', async () => {
    const answer = await cabwardJson('safe', RAILROAD, written('free', { trains: [west, siding] }));
    expect(answer).toMatchObject({ verdict: 'safe', witness: [{ train: 't7', to: 'B2' }] });
  });
  it('proves that nobody gets to a block that is not wired for his cab, and exits with 1', async () => {
    const file = written('locked', { trains: [{ ...west, to: 'B4' }] });
    expect((await cabward('safe', RAILROAD, file, '--json')).status).toBe(1);
    expect(await cabwardJson('safe', RAILROAD, file)).toMatchObject({
      verdict: 'gridlock',
      locked: { trains: ['t7'] },
    });
  });
});

describe('plan', () => {
  it('throws the knob that is needed and sends the train, and cannot be beaten', async () => {
    const answer = await cabwardJson<{ throws: { id: string }[]; moves: { train: string }[] }>(
      'plan',
      RAILROAD,
      written('free', { trains: [west, siding] }),
    );
    expect(answer).toMatchObject({ verdict: 'planned' });
    expect(answer.throws.map(({ id }) => id)).toContain('K2');
    expect(answer.moves.map(({ train }) => train)).toEqual(['t7']);
  });
  it('refuses reversals, as contracted, with a line that says where', async () => {
    const { status, err } = await cabward(
      'plan',
      RAILROAD,
      written('back', { trains: [west], reversals: true }),
    );
    expect(status).toBe(2);
    expect(err).toContain('$.reversals');
  });
});

describe.each(['safe', 'plan'])(
  '`%s` answers a wrong situation with one line: which file, where in it, what was expected; exit status 2',
  (command) => {
    it.each<[string, unknown, string]>([
      [
        'two trains in one block',
        { trains: [west, { ...siding, edge: 'e1', toward: 'g1' }] },
        '$.trains[1]: expected one train in a block, but t7 and t12 are both in B1',
      ],
      [
        'a destination that does not exist',
        { trains: [{ ...west, to: 'B9' }] },
        '$.trains[0].to: expected a block of the railroad, not "B9"',
      ],
      [
        'a train that is not there',
        { trains: [{ ...west, train: 't99' }] },
        '$.trains[0].train: expected a train of the railroad, not "t99"',
      ],
      [
        'a train twice',
        { trains: [west, { ...siding, train: 't7' }] },
        '$.trains[1].train: expected each train once',
      ],
      [
        'a head that is at no gap or end',
        { trains: [{ ...west, edge: 'e2', toward: 'T1' }] },
        '$.trains[0].toward: expected the head at a gap or an end of track, not at T1',
      ],
      [
        'a train that lies over a turnout set against it',
        { trains: [{ ...west, edge: 'e4', toward: 'g2' }], turnouts: { T1: 'normal' } },
        '$.trains[0]: expected room for the 1400 mm of t7 behind e4:g2 as the turnouts stand',
      ],
      [
        'a selector under a train given otherwise',
        { trains: [west], selectors: { K1: '2' } },
        '$.selectors.K1: expected "1", since t7 stands in B1, not "2"',
      ],
      [
        'a position that is not on the dial',
        { trains: [west], selectors: { K3: '3' } },
        '$.selectors.K3: expected "off" or a position of its dial, not "3"',
      ],
      [
        'two trains of one cab',
        { trains: [west, { ...siding, cab: '1', to: 'B2' }] },
        '$.trains[1].cab: expected one train a cab',
      ],
      ['an unknown field', { trains: [{ ...west, speed: 3 }] }, '$.trains[0]'],
      [
        'a start before the beginning',
        { trains: [{ ...west, notBefore: -1 }] },
        '$.trains[0].notBefore: expected',
      ],
      ['no object at all', [], '$: expected'],
    ])('%s', async (_what, situation, says) => {
      const file = written('wrong', situation);
      const { status, out, err } = await cabward(command, RAILROAD, file);
      expect({ status, out }).toEqual({ status: 2, out: '' });
      expect(err).toContain(`${file}: ${says}`);
      expect(err.trim().split('\n')).toHaveLength(1);
    });

    it('a train that does not fit where it stands', async () => {
      const long = {
        ...passingSidingExample,
        trains: passingSidingExample.trains.map((train) => ({ ...train, length: 1900 })),
      };
      const { status, err } = await cabward(
        command,
        written('long', long),
        written('long-train', { trains: [west] }),
      );
      expect(status).toBe(2);
      expect(err).toContain('$.trains[0]: expected room for the 1900 mm of t7 behind e1:g1');
    });

    it('a file that is not there, and one that is no JSON', async () => {
      const gone = await cabward(command, RAILROAD, join(temporaryFolder(), 'gone.json'));
      expect(gone).toMatchObject({ status: 2, out: '' });
      expect(gone.err).toContain('gone.json');
      const file = join(temporaryFolder(), 'broken.json');
      writeFileSync(file, '{"trains": [');
      const broken = await cabward(command, RAILROAD, file);
      expect(broken).toMatchObject({ status: 2, out: '' });
      expect(broken.err.trim().split('\n')).toHaveLength(1);
    });
  },
);

describe('capacity', () => {
  it('tells how many trains keep moving, and says of its occupancy that it is an estimate', async () => {
    const answer = await cabwardJson<CapacityAnswer>('capacity', RAILROAD, '--limit', '5');
    expect(answer).toMatchObject({ trains: 1, estimate: true });
    expect((await cabward('capacity', RAILROAD, '--limit', '5')).out).toContain(
      'an estimate after UIC Code 406',
    );
  });
  it('exits with 1 where not even one train can keep moving', async () => {
    const bare = written('bare', { ...passingSidingExample, trains: [] });
    expect((await cabward('capacity', bare)).status).toBe(1);
  });
  it.each<[string, readonly (string | object)[], string]>([
    ['no railroad', [], 'railroad'],
    ['a railroad that is not there', ['/nowhere/at/all.json'], '/nowhere/at/all.json'],
    ['something that is no railroad', [{ trains: [] }], '$'],
    [
      'a railroad with an error in its audit',
      [{ ...passingSidingExample, selectors: passingSidingExample.selectors.slice(1) }],
      'K1',
    ],
    ['a limit that is no number', [RAILROAD, '--limit', 'soon'], '--limit'],
    ['a limit of nothing', [RAILROAD, '--limit', '0'], '--limit'],
    ['a seed that is no whole number', [RAILROAD, '--seed', '1.5'], '--seed'],
    ['an option that is none', [RAILROAD, '--trains', '3'], '--trains'],
  ])('of %s is an input error', async (_what, args, says) => {
    const { status, out, err } = await cabward(
      'capacity',
      ...args.map((one) => (typeof one === 'string' ? one : written('railroad', one))),
    );
    expect({ status, out }).toEqual({ status: 2, out: '' });
    expect(err).toContain(says);
  });
});
