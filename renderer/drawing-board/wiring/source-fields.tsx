/** What a block is fed by: a selector, a throttle directly, or a toggle behind another block. */
import type { Block } from '../../../shared-model/railroad/document.ts';
import { type SourceWish, withSource } from '../../../shared-model/railroad/editing/sources.ts';
import { withThing } from '../../../shared-model/railroad/editing/things.ts';
import { Choice, PickBox } from '../../parts/field.tsx';
import { DraftText } from '../draft-field.tsx';
import { useDraft, useDrawingStore } from '../use-drawing.tsx';
import { useChange } from './use-change.ts';

const KINDS = [
  { value: 'selector', says: 'A selector' },
  { value: 'throttle', says: 'Straight to a throttle' },
  { value: 'toggle', says: 'Behind a toggle' },
] as const;

const kindOf = ({ source }: Block): SourceWish['kind'] =>
  'selector' in source ? 'selector' : 'throttle' in source ? 'throttle' : 'toggle';

const named = ({ id, name }: { readonly id: string; readonly name: string }) =>
  name === id ? id : `${id} ${name}`;
const options = <Id extends string>(things: readonly { readonly id: Id; readonly name: string }[]) =>
  things.map((thing) => ({ value: thing.id, says: named(thing) }));

/** The value of the choice that makes a new knob. */
const NEW = 'new knob';

export function SourceFields({ block }: { readonly block: Block }) {
  const store = useDrawingStore();
  const draft = useDraft();
  const { attempt, change } = useChange();
  const { source } = block;
  const wish = (next: SourceWish, says: string) =>
    attempt((before) => withSource(before, block.id, next), says);
  const others = draft.blocks.filter(({ id }) => id !== block.id);
  const chooseKind = (kind: SourceWish['kind']) => {
    if (kind !== 'toggle') return wish({ kind }, `${block.name}: another source`);
    const [from] = others;
    if (from === undefined) return store.say('There is no other block that it could hang on.');
    return wish({ kind, from: from.id }, `${block.name} behind a toggle`);
  };
  return (
    <fieldset className="wiring-group">
      <legend>Source</legend>
      <Choice label="Fed by" value={kindOf(block)} options={KINDS} onChange={chooseKind} />
      {'selector' in source ? (
        <PickBox
          label="Selector"
          value={source.selector}
          options={[
            ...options(draft.selectors),
            { value: NEW as typeof source.selector, says: 'a new one of its own' },
          ]}
          onChange={(selector) =>
            wish(
              selector === (NEW as typeof selector) ? { kind: 'selector' } : { kind: 'selector', selector },
              `${block.name}: another selector`,
            )
          }
        />
      ) : null}
      {'throttle' in source ? (
        <PickBox
          label="Throttle"
          value={source.throttle}
          options={options(draft.throttles)}
          onChange={(throttle) =>
            wish({ kind: 'throttle', throttle }, `${block.name} straight to ${throttle}`)
          }
        />
      ) : null}
      {'toggle' in source ? (
        <div className="wiring-fields">
          <PickBox
            label="Hangs on block"
            value={source.from}
            options={options(others)}
            onChange={(from) =>
              wish({ kind: 'toggle', toggle: source.toggle, from }, `${block.name} behind ${from}`)
            }
          />
          <DraftText
            label="Name of the toggle"
            value={draft.toggles.find(({ id }) => id === source.toggle)?.name ?? source.toggle}
            onChange={(name) =>
              change(
                (before) => withThing(before, 'toggles', source.toggle, { name }),
                `name of ${source.toggle}`,
                `${source.toggle} name`,
              )
            }
          />
        </div>
      ) : null}
    </fieldset>
  );
}
