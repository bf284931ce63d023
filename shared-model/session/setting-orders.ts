/** A saved setting against the present state of an evening: what differs, and the orders that bring it about. */
import type { NodeId, SelectorId, ThrottleId, ToggleId } from '../ids.ts';
import type { Setting, TurnoutPosition } from '../railroad/document.ts';
import type { SessionInput } from './input.ts';
import type { SessionState } from './state.ts';

export type Positions = Pick<Setting, 'selectors' | 'turnouts' | 'toggles'>;
type Knobs = Pick<SessionState, 'selectors' | 'turnouts' | 'toggles'>;

/** One knob that stands otherwise than the setting says; `now` null where this evening's railroad has no such knob. */
export interface KnobDifference {
  readonly id: string;
  readonly now: string | null;
  readonly to: string;
  /** The order that brings it about; null where there is no such knob. */
  readonly order: SessionInput | null;
}

const entries = <Key extends string, Value>(
  record: Readonly<Record<Key, Value>>,
): readonly (readonly [Key, Value])[] => Object.entries<Value>(record) as [Key, Value][];
const onOff = (on: boolean) => (on ? 'on' : 'off');

/** The present position of every knob, as a setting has it. */
export function positionsNow(state: Knobs): Positions {
  return {
    selectors: Object.fromEntries(entries(state.selectors).map(([id, { position }]) => [id, position])),
    turnouts: Object.fromEntries(entries(state.turnouts).map(([id, { position }]) => [id, position])),
    toggles: Object.fromEntries(entries(state.toggles).map(([id, { on }]) => [id, on])),
  };
}

/** Every knob that stands otherwise than a setting says: turnouts first, then selectors, then toggles, as they would be thrown. */
export function settingDifferences(state: Knobs, setting: Positions): readonly KnobDifference[] {
  const turnout = ([id, to]: readonly [NodeId, TurnoutPosition]): KnobDifference => {
    const now = state.turnouts[id]?.position ?? null;
    return { id, now, to, order: now === null ? null : { do: 'throw-turnout', turnout: id, position: to } };
  };
  const selector = ([id, to]: readonly [SelectorId, ThrottleId | 'off']): KnobDifference => {
    const now = state.selectors[id]?.position ?? null;
    return { id, now, to, order: now === null ? null : { do: 'turn-selector', selector: id, position: to } };
  };
  const toggle = ([id, on]: readonly [ToggleId, boolean]): KnobDifference => {
    const now = state.toggles[id]?.on;
    return now === undefined
      ? { id, now: null, to: onOff(on), order: null }
      : { id, now: onOff(now), to: onOff(on), order: { do: 'set-toggle', toggle: id, on } };
  };
  return [
    ...entries(setting.turnouts).map(turnout),
    ...entries(setting.selectors).map(selector),
    ...entries(setting.toggles).map(toggle),
  ].filter(({ now, to }) => now !== to);
}
