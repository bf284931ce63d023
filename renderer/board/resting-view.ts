/** The board of a railroad on which nothing goes on: its track and blocks, with no train and no position in question. */
import type { Railroad } from '../../shared-model/railroad/railroad.ts';
import { initialState } from '../../shared-model/session/initial.ts';
import { type BoardView, boardView } from './board-view.ts';

const sure = <Knob extends { readonly presumed: boolean }>(knobs: Readonly<Record<string, Knob>>) =>
  Object.fromEntries(Object.entries(knobs).map(([id, knob]) => [id, { ...knob, presumed: false }]));

/** @returns every block open, every turnout normal; nothing is marked as presumed, since nobody asks how it stands */
export function restingView(railroad: Railroad): BoardView {
  const state = initialState(railroad);
  return boardView(
    railroad,
    {
      ...state,
      selectors: sure(state.selectors),
      turnouts: sure(state.turnouts),
      toggles: sure(state.toggles),
    },
    {},
  );
}
