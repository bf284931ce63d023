import { describe, expect, it } from 'vitest';
import { blockPaths } from '../../../renderer/board/block-paths.ts';
import { boardLayout } from '../../../renderer/board/board-layout.ts';
import { boardView, sameView } from '../../../renderer/board/board-view.ts';
import { barredWords } from '../../../renderer/board/board-words.ts';
import { drawnTrains, movingNames, uncoveredBadges } from '../../../renderer/board/moving-things.ts';
import { trackDrawing } from '../../../renderer/board/track-drawing.ts';
import type { BlockId, NodeId, ThrottleId, TrainId } from '../../../shared-model/ids.ts';
import { spokenBlock } from '../../../shared-model/session/say.ts';
import type { SessionState } from '../../../shared-model/session/state.ts';
import { railroad as demo, played, running } from '../desk/demo-evening.ts';
import { clubMoment, clubOptions } from '../support/club-evening.ts';
import { clubRailroad } from '../support/club-railroad.ts';

const railroad = clubRailroad();
const state = clubMoment(railroad);
const view = boardView(railroad, state, clubOptions);
const blockOf = (id: string) => view.blocks.find((block) => block.id === id);
const layout = boardLayout(railroad, trackDrawing(railroad), { width: 1920, height: 500 }, 1, 20);
const trains = drawnTrains(railroad, layout, view.trains);

describe('what the board shows of a block', () => {
  it('is its state and its owner, by the place of the throttle in the file and its mark', () => {
    expect(blockOf('B2')).toMatchObject({ state: 'lined', cabIndex: 0, cabMark: '1' });
    expect(blockOf('B8')).toMatchObject({ state: 'open', cabIndex: null, cabMark: '' });
  });

  it('is said in words: mark, name, state, train and cab, and what else there is to know', () => {
    expect(blockOf('B1')?.says).toBe('1 Outer west: occupied, No. 7, Cab 1');
    expect(blockOf('B8')?.says).toBe('8 Inner back: open; position presumed');
    expect(blockOf('B13')?.says).toBe('13 Yard three: open; out of service: loose knob');
    expect(blockOf('B7')?.says).toBe('7 Inner east: open; refused because of it');
  });

  it('is what the caller says may be pressed, is next, and is marked', () => {
    expect(blockOf('B3')).toMatchObject({ pressable: true, next: true, mark: null });
    expect(blockOf('B9')).toMatchObject({ pressable: false, next: false, mark: 'danger' });
  });

  it('is whether somebody works in it as they like: its limits, from the grant to the release', () => {
    const worked = played(running, { do: 'grant-limits', train: 't12', blocks: ['B4', 'B10'] });
    const done = played(
      worked,
      { do: 'acknowledge', authority: 'a1' },
      { do: 'release-limits', train: 't12', edge: 'e34', toward: 'g14' },
    );
    const inLimits = ({ state: now }: { readonly state: SessionState }) =>
      boardView(demo, now, {}).blocks.filter(({ limits }) => limits);
    expect(inLimits(worked).map(({ id }) => id)).toEqual(['B4', 'B10']);
    expect(inLimits(worked)[0]?.says).toContain('working limits');
    expect(inLimits(done)).toEqual([]);
  });

  it('takes the knob of a section behind a toggle from its root', () => {
    const presumed = {
      ...state,
      selectors: { ...state.selectors, K14: { position: 'off', presumed: true } },
    };
    const shown = boardView(railroad, presumed as SessionState, {});
    expect(shown.blocks.find(({ id }) => id === 'B15')?.presumed).toBe(true);
    expect(blockOf('B15')?.presumed).toBe(false);
  });
});

describe('what the board shows of a turnout', () => {
  it('is how it stands, whether that is presumed, and whether it is locked', () => {
    const [t5, t1] = ['T5', 'T1'].map((id) => view.turnouts.find((turnout) => turnout.id === id));
    expect(t5).toMatchObject({
      position: 'reverse',
      presumed: false,
      locked: false,
      says: 'Turnout T5: reverse',
    });
    expect(t1?.says).toBe('Turnout T1: normal, presumed, locked');
  });
});

describe('a gap', () => {
  it('is barred with the reason it was given', () => {
    expect(view.barred).toEqual([{ id: 'gX2', why: 'not in phase', mark: null }]);
  });

  it('is barred too when an alarm stands on it', () => {
    const alarmed = boardView(railroad, state, { marks: new Map([['gO1', 'act']]) });
    expect(alarmed.barred).toEqual([{ id: 'gO1', why: 'bridged', mark: 'act' }]);
  });
});

describe('one change', () => {
  it('leaves the views of all other blocks, turnouts and trains as they were', () => {
    const block = { state: 'occupied' as const, cab: '1' as ThrottleId, train: 't7' as TrainId };
    const after = { ...state, blocks: { ...state.blocks, ['B2' as BlockId]: block } };
    const next = boardView(railroad, after, clubOptions);
    const changed = next.blocks.filter((one, i) => !sameView(one, view.blocks[i] as typeof one));
    expect(changed.map(({ id }) => id)).toEqual(['B2']);
    expect(next.turnouts.every((one, i) => sameView(one, view.turnouts[i] as typeof one))).toBe(true);
    expect(next.trains.every((one, i) => sameView(one, view.trains[i] as typeof one))).toBe(true);
  });

  it('of a turnout changes the path of its own block alone', () => {
    const paths = blockPaths(railroad, layout);
    const all = (moved: string | null) =>
      railroad.document.blocks.map(({ id }) =>
        paths.pathOf(id, (node) => (node === moved ? 'reverse' : 'normal')),
      );
    const [before, after] = [all(null), all('T5')];
    const changed = railroad.document.blocks.filter((_, i) => before[i] !== after[i]).map(({ id }) => id);
    expect(changed).toEqual(['B7']);
    expect(paths.badgesOf('B1' as BlockId)).toBe(paths.badgesOf('B1' as BlockId));
  });
});

describe('trains on the board', () => {
  const pieceOf = (id: string) => trains.find((train) => train.view.id === id)?.pieces[0] ?? [];

  it('point to where their head is', () => {
    const gap = layout.gaps.find(({ id }) => id === 'gO1');
    const head = pieceOf('t7').at(-1) ?? [0, 0];
    expect(head[0]).toBeLessThan(gap?.at[0] ?? 0);
    expect((gap?.at[0] ?? 0) - head[0]).toBeLessThan(10);
    const west = pieceOf('t55');
    expect(west.at(-1)?.[0]).toBeLessThan(west[0]?.[0] ?? 0);
  });

  it('are drawn long enough for their names, and to scale where that is longer', () => {
    const [short, long] = [pieceOf('t55'), pieceOf('t40')].map((line) =>
      Math.abs((line.at(-1)?.[0] ?? 0) - (line[0]?.[0] ?? 0)),
    );
    expect(short).toBeGreaterThan(100);
    expect(long).toBeGreaterThan(short ?? 0);
  });

  it('lie in the middle of their block, without a front, while their place is not known', () => {
    const unknown = trains.find((train) => train.view.id === 't60');
    expect(unknown?.placeKnown).toBe(false);
    expect(unknown?.pieces).toHaveLength(1);
  });

  it('hide the badges that they lie on, and no others', () => {
    const paths = blockPaths(railroad, layout);
    const inB1 = trains.filter(({ view: train }) => train.blocks.some((id) => id === 'B1'));
    const badges = paths.badgesOf('B1' as BlockId);
    const left = uncoveredBadges(badges, inB1, layout.sizes);
    expect(left.length).toBeGreaterThan(0);
    expect(left.length).toBeLessThan(badges.length);
    expect(uncoveredBadges(badges, [], layout.sizes)).toEqual(badges);
  });

  it('that are too short for their name, and barred gaps, have theirs beside them', () => {
    const beside = movingNames(layout, trains, view.barred);
    expect(beside.get('cut3')?.words).toBe('cut3');
    expect(beside.get('gX2')?.words).toBe('not in phase');
    expect(beside.has('t7')).toBe(false);
  });
});

describe('what is parted at a turnout', () => {
  it('is the leg that is not set', () => {
    const paths = blockPaths(railroad, layout);
    const set = (position: 'normal' | 'reverse') =>
      paths.pathOf('B7' as BlockId, (node: NodeId) => (node === 'T5' ? position : 'normal'));
    const at = layout.turnouts.find(({ node }) => node.id === 'T5')?.at ?? [0, 0];
    const touches = (path: string) =>
      [...path.matchAll(/[ML](-?[\d.]+) (-?[\d.]+)/g)].filter(
        ([, x, y]) => Math.hypot(Number(x) - at[0], Number(y) - at[1]) < 1,
      ).length;
    expect(touches(set('normal'))).toBe(2);
    expect(touches(set('reverse'))).toBe(2);
    expect(set('normal')).not.toBe(set('reverse'));
  });
});

describe('a gap that must not be crossed now', () => {
  const gap = railroad.document.nodes.find(({ kind }) => kind === 'gap');
  if (gap === undefined) throw new Error('the club has gaps');
  const shown = boardView(railroad, state, { barredGaps: new Map([[gap.id, 'reversed']]) });

  it('is barred and says why, beside the gap and in the table at the blocks on both its sides', () => {
    expect(shown.barred).toEqual([{ id: gap.id, why: 'reversed', mark: null }]);
    const beside = movingNames(layout, [], shown.barred);
    expect(beside.get(gap.id)?.words).toBe('reversed');
    const [one, other] = (railroad.edgesAt.get(gap.id) ?? []).flatMap(
      (edge) => railroad.blockOfEdge.get(edge) ?? [],
    );
    const told = railroad.document.blocks.flatMap(({ id }) =>
      barredWords(railroad, shown.barred, id).map((words) => [id, words]),
    );
    const mark = (block: string | undefined) => spokenBlock(railroad, block ?? '');
    expect(Object.fromEntries(told)).toEqual({
      [one ?? '']: `gap to ${mark(other)} barred: reversed`,
      [other ?? '']: `gap to ${mark(one)} barred: reversed`,
    });
  });
});
