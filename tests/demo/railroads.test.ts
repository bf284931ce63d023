/** The railroads that come with the console: what they promise to show. */
import { describe, expect, test } from 'vitest';
import { demoRailroad, exampleRailroads } from '../../shared-model/demo/railroad.ts';
import type { SupplyId } from '../../shared-model/ids.ts';
import { fullAudit } from '../../shared-model/power/audit.ts';
import type { RailroadDocument } from '../../shared-model/railroad/document.ts';
import { indexRailroad } from '../../shared-model/railroad/railroad.ts';
import { routesToEdge } from '../../shared-model/railroad/routes.ts';
import { isThrown, type Spot } from '../../shared-model/railroad/travel.ts';

const sourceKinds = (document: RailroadDocument, kind: 'selector' | 'throttle' | 'toggle') =>
  document.blocks.filter((block) => kind in block.source).map((block) => block.id);

describe.each(exampleRailroads)('$id', ({ document }) => {
  test('has no error in its audit, and no two ends drawn on one spot but where the track joins', () => {
    expect(fullAudit(document).filter((finding) => finding.severity === 'error')).toEqual([]);
    const drawn = document.nodes.flatMap((node) => [
      node.at,
      ...(node.alsoAt === undefined ? [] : [node.alsoAt]),
    ]);
    expect(new Set(drawn.map(String)).size).toBe(drawn.length);
  });

  test('is drawn on a grid, wider than high, in lines that are level or rise by one for one', () => {
    const points = document.nodes.map((node) => node.at);
    const [xs, ys] = [points.map(([x]) => x), points.map(([, y]) => y)];
    const ratio = (Math.max(...xs) - Math.min(...xs)) / (Math.max(...ys) - Math.min(...ys));
    expect(ratio).toBeGreaterThan(2.5);
    const railroad = indexRailroad(document);
    for (const edge of document.edges) {
      const [from, to] = edge.between.map((id) => {
        const node = railroad.nodes.get(id);
        const second = railroad.edgesAt.get(id)?.[1] === edge.id;
        return (second ? node?.alsoAt : undefined) ?? node?.at ?? [Number.NaN, Number.NaN];
      });
      const [dx, dy] = [
        Math.abs((to?.[0] ?? 0) - (from?.[0] ?? 0)),
        Math.abs((to?.[1] ?? 0) - (from?.[1] ?? 0)),
      ];
      expect(dy === 0 || dx === dy).toBe(true);
    }
  });

  test('every setting names every selector, turnout and toggle', () => {
    const thrown = document.nodes.filter(isThrown).map((node) => node.id);
    for (const setting of document.settings) {
      expect(Object.keys(setting.selectors).sort()).toEqual(document.selectors.map(({ id }) => id).sort());
      expect(Object.keys(setting.turnouts).sort()).toEqual([...thrown].sort());
      expect(Object.keys(setting.toggles).sort()).toEqual(document.toggles.map(({ id }) => id).sort());
    }
  });

  test('every track of every place can be got to from somewhere, leaving it where the place says', () => {
    const railroad = indexRailroad(document);
    const starts: readonly Spot[] = document.edges.flatMap((edge) =>
      edge.between.map((toward) => ({ edge: edge.id, toward })),
    );
    for (const { edge, toward } of document.places.flatMap((place) => place.at))
      expect(starts.some((from) => routesToEdge(railroad, from, edge, {}, toward).length > 0)).toBe(true);
  });
});

describe('the demo railroad', () => {
  test('has two blocks wired straight to a throttle, sections behind toggles, and a position that is not wired', () => {
    expect(demoRailroad.blocks).toHaveLength(18);
    expect(sourceKinds(demoRailroad, 'throttle')).toEqual(['B11', 'B13']);
    expect(sourceKinds(demoRailroad, 'toggle')).toEqual(['B17', 'B18']);
    expect(
      demoRailroad.selectors.filter((dial) => dial.positions.includes(null)).map(({ id }) => id),
    ).toEqual(['K5']);
  });

  test('has four throttles on two supplies, six trains, places in order and a master switch', () => {
    expect(demoRailroad.throttles.map((throttle) => throttle.supply)).toEqual([
      'north',
      'north',
      'south',
      'south',
    ]);
    expect(demoRailroad.trains).toHaveLength(6);
    expect(demoRailroad.places.map((place) => place.order)).toEqual([1, 2, 3, 4, 5, 6]);
    expect(demoRailroad.masterSwitch).toBeDefined();
  });

  test('turns trains round at one place, the cutoff', () => {
    const reversing = fullAudit(demoRailroad).filter(({ code }) => code === 'reversing-section');
    expect(reversing).toMatchObject([{ severity: 'info', about: expect.arrayContaining(['e41', 'e42']) }]);
  });

  test('with one good phase check nothing is left to warn of but sections shorter than the longest train', () => {
    const measured = {
      a: 'north' as SupplyId,
      b: 'south' as SupplyId,
      voltsA: 18,
      voltsB: 18,
      voltsAcross: 0.3,
    };
    const warnings = fullAudit(demoRailroad, [measured]).filter(({ severity }) => severity !== 'info');
    expect(warnings.map(({ code, about }) => [code, ...about])).toEqual([
      ['short-block', 'B11'],
      ['short-block', 'B17'],
      ['short-block', 'B18'],
    ]);
  });

  test('has a setting in which each loop runs on a throttle of its own', () => {
    const loops = demoRailroad.settings.find(({ id }) => id === 'loops')?.selectors ?? {};
    const on = (throttle: string) =>
      Object.entries(loops).flatMap(([selector, position]) => (position === throttle ? [selector] : []));
    expect(on('1')).toEqual(['K1', 'K2', 'K3', 'K4', 'K5']);
    expect(on('2')).toEqual(['K6', 'K7', 'K8', 'K9']);
  });
});
