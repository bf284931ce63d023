/** What is changed at a turnout or crossing. */
import { describe, expect, test } from 'vitest';
import { brokenTrack } from '../../../../shared-model/railroad/broken-track.ts';
import { blankSheet, type DraftDocument } from '../../../../shared-model/railroad/editing/draft.ts';
import { removeTrack } from '../../../../shared-model/railroad/editing/remove-track.ts';
import {
  nextTrunk,
  nextWays,
  setInsulated,
  setSelfLining,
  setSlips,
  slipFormOf,
  swapLegs,
} from '../../../../shared-model/railroad/editing/track-acts.ts';
import { indexRailroad } from '../../../../shared-model/railroad/railroad.ts';
import { draftOf, drawn, turnoutOf } from '../../../support/drawn-siding.ts';

const blank = blankSheet('Sheet');

describe('a turnout', () => {
  const yard = drawn(drawn(drawn(blank, 1, [0, 0], [6, 0]), 1, [6, 0], [12, 0]), 1, [6, 0], [12, 3]);

  test('has its trunk changed round its three edges, and its legs swapped', () => {
    const next = draftOf(nextTrunk(yard, 'T1'));
    expect(turnoutOf(next).trunk).toBe('e2');
    expect(turnoutOf(draftOf(nextTrunk(draftOf(nextTrunk(next, 'T1')), 'T1'))).trunk).toBe('e1');
    expect(turnoutOf(draftOf(swapLegs(yard, 'T1')))).toMatchObject({ normal: 'e3', reverse: 'e2' });
  });

  test('can be self-lining', () => {
    const lined = draftOf(setSelfLining(yard, 'T1', true));
    expect(turnoutOf(lined).selfLining).toBe(true);
    expect(draftOf(setSelfLining(lined, 'T1', false))).toEqual(yard);
  });

  test('becomes a joint when a leg is removed, and settings forget it', () => {
    const setting = { id: 's1', name: 'S', selectors: {}, turnouts: { T1: 'normal' }, toggles: {} };
    const draft = draftOf(removeTrack({ ...yard, settings: [setting as never] }, new Set(['e3'])));
    expect(draft.nodes.map(({ kind }) => kind)).toEqual(['end', 'joint', 'end']);
    expect(draft.settings[0]?.turnouts).toEqual({});
  });
});

describe('a crossing', () => {
  const star = (
    [
      [0, 0],
      [6, 6],
      [6, 0],
      [0, 6],
    ] as const
  ).reduce((sheet, end) => drawn(sheet, 1, [3, 3], end), blank);
  const crossing = (draft: DraftDocument) => draft.nodes.find((node) => node.kind === 'crossing');

  test('has three ways to be crossed, one after the other', () => {
    const once = draftOf(nextWays(star, 'X1'));
    expect(crossing(once)?.ways).not.toEqual(crossing(star)?.ways);
    expect(draftOf(nextWays(draftOf(nextWays(once, 'X1')), 'X1'))).toEqual(star);
  });

  test('insulated, parts its two ways electrically', () => {
    const parted = draftOf(setInsulated(star, 'X1', true));
    expect(indexRailroad(star).sections).toHaveLength(1);
    expect(indexRailroad(parted).sections).toHaveLength(2);
  });

  test('has no slip, one, the other, or both', () => {
    for (const form of ['one', 'other', 'both', 'none'] as const) {
      const draft = draftOf(setSlips(star, 'X1', form));
      const node = crossing(draft);
      expect(brokenTrack(draft)).toEqual([]);
      expect(node === undefined ? null : slipFormOf(draft, node)).toBe(form);
    }
  });
});
