/** DIALS: the wooden control panel in its rows; large only where a knob is wrong, next or presumed. Pressing one offers its positions. */
import { useState } from 'react';
import type { SessionInput } from '../../shared-model/session/input.ts';
import { Act } from '../parts/act.tsx';
import type { DeskSource } from './desk-source.ts';

interface DialsProps {
  readonly source: DeskSource;
  /** Ids of the things that are next, with the position they go to. */
  readonly next: ReadonlyMap<string, string>;
  readonly onThrow: (input: SessionInput) => void;
  readonly onReport: (input: SessionInput) => void;
}

interface Dial {
  readonly id: string;
  readonly name: string;
  readonly at: string;
  readonly presumed: boolean;
  readonly wrong: boolean;
  readonly to: readonly {
    readonly says: string;
    readonly order: SessionInput;
    readonly report: SessionInput;
  }[];
}

function dialsOf({ railroad, state }: DeskSource): readonly Dial[] {
  const wrong = new Set(
    state.alarms.filter(({ code }) => code === 'wrong-throttle').map(({ about }) => about[0]),
  );
  const selectors = railroad.document.selectors.map((selector): Dial => {
    const now = state.selectors[selector.id];
    const block = railroad.document.blocks.find(
      ({ source }) => 'selector' in source && source.selector === selector.id,
    );
    const positions = [...new Set(selector.positions)].filter((position) => position !== null);
    return {
      id: selector.id,
      name: selector.name,
      at: now?.position ?? 'off',
      presumed: now?.presumed ?? true,
      wrong: block !== undefined && wrong.has(block.id),
      to: positions.map((position) => ({
        says: position,
        order: { do: 'turn-selector', selector: selector.id, position },
        report: { do: 'selector-stands-at', selector: selector.id, position },
      })),
    };
  });
  const toggles = railroad.document.toggles.map(
    (toggle): Dial => ({
      id: toggle.id,
      name: toggle.name,
      at: state.toggles[toggle.id]?.on === true ? 'on' : 'off',
      presumed: state.toggles[toggle.id]?.presumed ?? true,
      wrong: false,
      to: [true, false].map((on) => ({
        says: on ? 'on' : 'off',
        order: { do: 'set-toggle', toggle: toggle.id, on },
        report: { do: 'toggle-stands-at', toggle: toggle.id, on },
      })),
    }),
  );
  const turnouts = Object.entries(state.turnouts).map(
    ([id, now]): Dial => ({
      id,
      name: id,
      at: now.position,
      presumed: now.presumed,
      wrong: state.alarms.some(({ code, about }) => code === 'turnout-moved' && about[0] === id),
      to: (['normal', 'reverse'] as const).map((position) => ({
        says: position,
        order: { do: 'throw-turnout', turnout: id as never, position },
        report: { do: 'turnout-stands-at', turnout: id as never, position },
      })),
    }),
  );
  return [...selectors, ...toggles, ...turnouts];
}

export function Dials({ source, next, onThrow, onReport }: DialsProps) {
  const [open, setOpen] = useState<string | null>(null);
  const dials = dialsOf(source);
  const chosen = dials.find(({ id }) => id === open);
  return (
    <section className="desk-dials" data-zone="dials" aria-label="Dials">
      {chosen === undefined ? null : (
        <div className="desk-dial-acts">
          <strong>{chosen.name}</strong>
          {chosen.to.map(({ says, order }) => (
            <Act
              key={says}
              pressed={says === chosen.at}
              onPress={() => {
                onThrow(order);
                setOpen(null);
              }}
            >
              turned to {says}
            </Act>
          ))}
          {chosen.to.map(({ says, report }) => (
            <Act
              kind="calm"
              key={`is ${says}`}
              onPress={() => {
                onReport(report);
                setOpen(null);
              }}
            >
              found at {says}
            </Act>
          ))}
          <Act kind="calm" onPress={() => setOpen(null)}>
            Leave it
          </Act>
        </div>
      )}
      <ul>
        {dials.map((dial) => {
          const to = next.get(dial.id);
          return (
            <li key={dial.id}>
              <button
                type="button"
                className="desk-dial"
                data-large={dial.wrong || to !== undefined || undefined}
                data-wrong={dial.wrong || undefined}
                aria-expanded={open === dial.id}
                onClick={() => setOpen(open === dial.id ? null : dial.id)}
              >
                {dial.name}:{dial.at === 'normal' ? 'n' : dial.at === 'reverse' ? 'r' : dial.at}
                {dial.presumed ? '?' : ''}
                {to === undefined ? '' : ` to ${to}`}
              </button>
            </li>
          );
        })}
      </ul>
    </section>
  );
}
