/** A moment of an evening on the club's railroad, made by hand so that the board shows everything that it can show. */

import type { BoardOptions } from '../../../renderer/board/board-view.ts';
import type { BoardMark } from '../../../renderer/board/board-words.ts';
import type { BlockId, EdgeId, NodeId, ThrottleId, TrainId } from '../../../shared-model/ids.ts';
import type { Railroad } from '../../../shared-model/railroad/railroad.ts';
import { initialState } from '../../../shared-model/session/initial.ts';
import type { BlockStateName, SessionState, TrainNow } from '../../../shared-model/session/state.ts';

const spot = (edge: string, toward: string) => ({ edge: edge as EdgeId, toward: toward as NodeId });
const now = (state: BlockStateName, cab: string | null, train: string | null) => ({
  state,
  cab: cab as ThrottleId | null,
  train: train as TrainId | null,
});

function placed(
  train: TrainNow | undefined,
  cab: string,
  blocks: readonly string[],
  trail: readonly string[],
): TrainNow {
  if (train === undefined) throw new Error('no such train');
  return {
    ...train,
    placed: true,
    cab: cab as ThrottleId,
    blocks: blocks as readonly BlockId[],
    trail: trail.map((words) => {
      const [edge = '', toward = ''] = words.split('>');
      return spot(edge, toward);
    }),
  };
}

export function clubMoment(railroad: Railroad): SessionState {
  const start = initialState(railroad);
  const trains = start.trains as Record<string, TrainNow>;
  return {
    ...start,
    phase: 'running',
    blocks: {
      ...start.blocks,
      B1: now('occupied', '1', 't7'),
      B2: now('lined', '1', 't7'),
      B3: now('pledged', '1', 't7'),
      B4: now('occupied', '3', 't31'),
      B5: now('occupied', '2', 't12'),
      B6: now('pledged', '2', 't12'),
      B9: now('disputed', '5', 't60'),
      B11: now('occupied', '4', 't40'),
      B12: now('occupied', null, 'cut3'),
      B14: now('lined', '6', 't55'),
      B15: now('occupied', '6', 't55'),
    } as SessionState['blocks'],
    trains: {
      ...trains,
      t7: placed(trains.t7, '1', ['B1'], ['o1>gO1']),
      t12: placed(trains.t12, '2', ['B5'], ['i1c>gI1', 'i1b>T2']),
      t31: placed(trains.t31, '3', ['B4'], ['o4>gO0']),
      t40: placed(trains.t40, '4', ['B11'], ['y7>nY1']),
      t60: placed(trains.t60, '5', ['B9'], []),
      t55: placed(trains.t55, '6', ['B15'], ['q3>gQ2']),
    } as SessionState['trains'],
    cuts: {
      cut3: { length: 900, trail: [spot('y8', 'gY2')], blocks: ['B12' as BlockId] },
    } as SessionState['cuts'],
    turnouts: {
      ...start.turnouts,
      T5: { position: 'reverse', presumed: false },
      T9: { position: 'reverse', presumed: false },
      T3: { position: 'normal', presumed: false },
      T7: { position: 'normal', presumed: false },
    } as SessionState['turnouts'],
    selectors: Object.fromEntries(
      Object.entries(start.selectors).map(([id, selector]) => [
        id,
        { ...selector, presumed: id === 'K8' || id === 'K10' },
      ]),
    ) as SessionState['selectors'],
    tags: [{ thing: 'B13', why: 'loose knob', by: 'Kim', at: 0 }],
  };
}

export const clubOptions: Required<BoardOptions> = {
  barredGaps: new Map([['gX2' as NodeId, 'not in phase']]),
  marks: new Map<string, BoardMark>([
    ['B7', 'refused'],
    ['B9', 'danger'],
  ]),
  next: new Set(['B3', 'T6']),
  pressable: new Set(['B1', 'B2', 'B3', 'T6']),
  locked: new Set(['T3' as NodeId, 'T1' as NodeId]),
};
