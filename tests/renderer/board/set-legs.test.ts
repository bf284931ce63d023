import { describe, expect, it } from 'vitest';
import { partedAtCrossing, partedLeg } from '../../../renderer/board/set-legs.ts';
import type { CrossingNode, TurnoutNode } from '../../../shared-model/railroad/document.ts';

const turnout = {
  id: 'T',
  kind: 'turnout',
  at: [0, 0],
  trunk: 'a',
  normal: 'b',
  reverse: 'c',
} as unknown as TurnoutNode;
const crossing = (more: object) =>
  ({
    id: 'X',
    kind: 'crossing',
    at: [0, 0],
    ways: [
      ['a', 'b'],
      ['c', 'd'],
    ],
    insulated: false,
    ...more,
  }) as unknown as CrossingNode;

describe('the leg that is drawn parted', () => {
  it('of a turnout is the one it is not set to', () => {
    expect(partedLeg(turnout, 'normal')).toBe('c');
    expect(partedLeg(turnout, 'reverse')).toBe('b');
  });

  it('of a plain crossing is none', () => {
    expect(partedAtCrossing(crossing({}), 'normal')).toEqual([]);
  });

  it('of an insulated crossing is the second way, which is apart electrically', () => {
    expect(partedAtCrossing(crossing({ insulated: true }), 'normal')).toEqual(['c', 'd']);
  });

  it('of a single slip set reverse are the two ends that the slip does not lead to', () => {
    const slip = crossing({ slips: [['a', 'd']] });
    expect(partedAtCrossing(slip, 'reverse')).toEqual(['b', 'c']);
    expect(partedAtCrossing(slip, 'normal')).toEqual([]);
  });

  it('of a double slip is none: every end leads somewhere', () => {
    const slips = crossing({
      slips: [
        ['a', 'd'],
        ['c', 'b'],
      ],
    });
    expect(partedAtCrossing(slips, 'reverse')).toEqual([]);
  });
});
