/** `cabward safe` and `cabward plan` on the passing siding: a meet at the siding, and what is said of wrong situations. */
import { writeFileSync } from 'node:fs';
import { join } from 'node:path';
import { describe, expect, it } from 'vitest';
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

describe('a wrong situation is an input error with its place', () => {
  it.each<[string, object, string]>([
    ['two trains in one block', { trains: [west, { ...siding, edge: 'e1', toward: 'g1' }] }, 'trains'],
    ['a destination that does not exist', { trains: [{ ...west, to: 'B9' }] }, 'B9'],
    ['a head that is at no gap or end', { trains: [{ ...west, edge: 'e2', toward: 'T1' }] }, 'T1'],
    ['a selector under a train given otherwise', { trains: [west], selectors: { K1: '2' } }, 'K1'],
    ['two trains of one cab', { trains: [west, { ...siding, cab: '1', to: 'B2' }] }, 'cab'],
    ['an unknown field', { trains: [{ ...west, speed: 3 }] }, 'speed'],
  ])('%s', async (_what, situation, place) => {
    const { status, err } = await cabward('safe', RAILROAD, written('wrong', situation));
    expect(status).toBe(2);
    expect(err).toContain(place);
    expect(err.trim().split('\n')).toHaveLength(1);
  });
});
