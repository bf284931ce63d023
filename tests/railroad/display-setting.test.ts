/** The display setting: each loop on a throttle of its own, offered only where the railroad allows it. */
import { describe, expect, test } from 'vitest';
import { demoRailroad } from '../../shared-model/demo/railroad.ts';
import { displaySetting } from '../../shared-model/railroad/display-setting.ts';
import type { RailroadDocument } from '../../shared-model/railroad/document.ts';
import { FIRST_ANSWERS, type QuickAnswers } from '../../shared-model/railroad/quick-start/answers.ts';
import { firstRailroad } from '../../shared-model/railroad/quick-start/first-railroad.ts';
import { indexRailroad } from '../../shared-model/railroad/railroad.ts';
import { passingSidingExample } from '../support/example.ts';

const offered = (document: RailroadDocument) => displaySetting(indexRailroad(document));
const quick = (part: Partial<QuickAnswers>) => firstRailroad({ ...FIRST_ANSWERS, ...part });

describe('a display setting', () => {
  test('puts every selector of a loop on the loop’s own throttle, and the rest off', () => {
    const document = quick({ loops: 2, throttles: 2 });
    const display = offered(document);
    expect(display?.loops.map(({ blocks, throttle }) => [blocks, throttle])).toEqual([
      [['B1', 'B2', 'B3', 'B4'], '1'],
      [['B5', 'B6', 'B7', 'B8'], '2'],
    ]);
    expect(display?.positions.selectors).toEqual({
      ...Object.fromEntries(['K1', 'K2', 'K3', 'K4'].map((id) => [id, '1'])),
      ...Object.fromEntries(['K5', 'K6', 'K7', 'K8'].map((id) => [id, '2'])),
      K9: 'off',
      K10: 'off',
    });
    expect(new Set(Object.values(display?.positions.turnouts ?? {}))).toEqual(new Set(['normal']));
    expect(new Set(Object.values(display?.positions.toggles ?? {}))).toEqual(new Set([false]));
  });

  test('is offered for loops that are wired straight to throttles of their own', () => {
    const display = offered(quick({ loops: 2, throttles: 2, selectors: 'none' }));
    expect(display?.loops.map(({ throttle }) => throttle)).toEqual(['1', '2']);
    expect(display?.positions.selectors).toEqual({});
  });

  test('is not offered with fewer throttles than loops', () => {
    expect(offered(quick({ loops: 2, throttles: 1 }))).toBeNull();
    expect(offered(quick({ loops: 3, throttles: 2 }))).toBeNull();
    expect(offered(quick({ loops: 1, throttles: 1 }))?.loops).toHaveLength(1);
  });

  test('gives a loop whose dial lacks a throttle another one', () => {
    const document = quick({ loops: 2, throttles: 2 });
    const only2 = {
      ...document,
      selectors: document.selectors.map((selector) =>
        selector.id === 'K1'
          ? { ...selector, positions: selector.positions.filter((at) => at !== '1') }
          : selector,
      ),
    };
    expect(offered(only2)?.loops.map(({ throttle }) => throttle)).toEqual(['2', '1']);
  });

  test('is not offered where one knob feeds blocks of two loops', () => {
    const document = quick({ loops: 2, throttles: 2 });
    const shared = {
      ...document,
      blocks: document.blocks.map((block) =>
        block.id === 'B5' ? { ...block, source: document.blocks[0]?.source ?? block.source } : block,
      ),
    };
    expect(offered(shared)).toBeNull();
  });

  test('is not offered where part of a loop is dead', () => {
    const document = quick({ loops: 1 });
    const dead = {
      ...document,
      blocks: document.blocks.map((block) => (block.id === 'B2' ? { ...block, feeders: [] } : block)),
    };
    expect(offered(dead)).toBeNull();
  });

  test('is not offered on a line from end to end', () => {
    expect(offered(passingSidingExample)).toBeNull();
  });

  test('runs both ovals of the demo', () => {
    expect(offered(demoRailroad)?.loops).toHaveLength(2);
  });
});
