/** The guide: every link in it leads somewhere, every code and key has its line, and the search finds lines. */
import { readdirSync, readFileSync } from 'node:fs';
import { describe, expect, it } from 'vitest';
import { findInHelp, TOPICS, topicAddress } from '../../../renderer/help/topics.ts';
import { helpAddress } from '../../../renderer/shell/help-address.ts';
import { SCREENS } from '../../../renderer/shell/screens.ts';
import { ALARM_CODES, REFUSAL_CODES } from '../../../shared-model/refusal.ts';

const topic = (path: string): string => TOPICS.find((one) => one.path === path)?.text ?? '';

describe('the guide', () => {
  it('is every text of docs/guide, each with a title', () => {
    const files = readdirSync('docs/guide').map((file) => file.replace('.md', ''));
    expect(TOPICS.map(({ path }) => path).toSorted()).toEqual(files.toSorted());
    expect(TOPICS.filter(({ title }) => title === '')).toEqual([]);
    expect(TOPICS[0]?.path).toBe('first-evening');
  });

  it('links only to topics that are there', () => {
    const links = TOPICS.flatMap(({ path, text }) =>
      [...text.matchAll(/\]\(((?!\.\.)[^)]+\.md[^)]*)\)/g)].map(([, href = '']) => ({ path, href })),
    );
    expect(links.length).toBeGreaterThan(0);
    expect(links.filter(({ href }) => topicAddress(href) === null)).toEqual([]);
    expect(topicAddress('../adr/0001-direction-of-imports.md')).toBeNull();
  });

  it('has a topic for every screen that is offered', () => {
    for (const { path } of SCREENS) {
      const name = helpAddress(path).replace('#/help/', '');
      expect(
        TOPICS.some((one) => one.path === name),
        path,
      ).toBe(true);
    }
  });

  it('explains every refusal and every alarm', () => {
    const rows = topic('refusals').split('\n');
    const plain = (text: string): string => text.replaceAll('-', ' ');
    const isThere = (code: string): boolean =>
      rows.some((row) => plain(row).startsWith(`| ${plain(code)} |`));
    expect([...REFUSAL_CODES, ...ALARM_CODES].filter((code) => !isThere(code))).toEqual([]);
  });

  it('has every word of the trade that the design fixes', () => {
    const words = readFileSync('docs/guide/words.md', 'utf8');
    for (const word of ['gap', 'selector', 'authority', 'limits', 'cut', 'guard', 'gridlock', 'read-back'])
      expect(words).toContain(`${word}`);
  });
});

describe('the search', () => {
  it('shows each topic once, with its first line in which all words stand', () => {
    const topics = [
      { path: 'a', title: 'A', text: 'one two\n**two** `three` [four](x.md)' },
      { path: 'b', title: 'Two', text: 'nothing' },
    ];
    expect(findInHelp('THREE two', topics).map(({ line }) => line)).toEqual(['two three four']);
    expect(findInHelp('two', topics).map(({ line }) => line)).toEqual(['one two', 'Two']);
    expect(findInHelp('  ', topics)).toEqual([]);
  });
});
