/** The state of an evening in words, a line a thing. */
import type { StateAnswer } from '../../shared-model/session/state-answer.ts';

const list = (ids: readonly string[]): string => (ids.length === 0 ? 'nowhere' : ids.join(', '));

/** Blocks, knobs, trains, authorities, alarms and asks, a line each. */
export function stateLines(state: StateAnswer): readonly string[] {
  return [
    ...Object.entries(state.blocks).map(
      ([id, { state: name, cab, train }]) =>
        `block ${id}: ${name}${cab === null ? '' : `, cab ${cab}`}${train === null ? '' : `, ${train}`}`,
    ),
    ...Object.entries(state.turnouts).map(
      ([id, { position, locked }]) => `turnout ${id}: ${position}${locked ? ', locked' : ''}`,
    ),
    ...Object.entries(state.selectors).map(([id, position]) => `selector ${id}: ${position}`),
    ...Object.entries(state.toggles).map(([id, on]) => `toggle ${id}: ${on ? 'on' : 'off'}`),
    ...Object.entries(state.trains).map(
      ([id, { blocks, cab }]) => `train ${id}: in ${list(blocks)}, ${cab === null ? 'no cab' : `cab ${cab}`}`,
    ),
    ...Object.entries(state.authorities).map(
      ([id, { train, state: name, blocks }]) => `authority ${id}: ${train}, ${name}, over ${list(blocks)}`,
    ),
    ...state.alarms.map(({ code, about }) => `alarm: ${code} (${about.join(', ')})`),
    ...state.asks.map(({ train, to, free }) => `ask: ${train} to ${to}${free ? ', free now' : ''}`),
  ];
}
