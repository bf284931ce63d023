/** One saved setting: every knob with the position it is to have, against the present state of the evening. */

import type { Setting } from '../../../shared-model/railroad/document.ts';
import { without, withThing } from '../../../shared-model/railroad/editing/things.ts';
import { isThrown } from '../../../shared-model/railroad/travel.ts';
import { Act } from '../../parts/act.tsx';
import { OnOff, PickBox } from '../../parts/field.tsx';
import { DraftText } from '../draft-field.tsx';
import { useDraft } from '../use-drawing.tsx';
import { useChange } from '../wiring/use-change.ts';
import { SettingNow } from './setting-now.tsx';

const TURNOUT = [
  { value: 'normal', says: 'normal' },
  { value: 'reverse', says: 'reverse' },
] as const;

function Knobs({ setting }: { readonly setting: Setting }) {
  const draft = useDraft();
  const { change } = useChange();
  const set = (part: Partial<Setting>, knob: string) =>
    change((before) => withThing(before, 'settings', setting.id, part), `${knob} in ${setting.name}`);
  return (
    <div className="wiring-fields">
      {draft.selectors.map(({ id, name, positions }) => (
        <PickBox
          key={id}
          label={name === id ? id : `${id} ${name}`}
          value={setting.selectors[id] ?? 'off'}
          options={[...new Set(['off' as const, ...positions.filter((position) => position !== null)])].map(
            (position) => ({ value: position, says: position }),
          )}
          onChange={(position) => set({ selectors: { ...setting.selectors, [id]: position } }, id)}
        />
      ))}
      {draft.nodes.filter(isThrown).map(({ id }) => (
        <PickBox
          key={id}
          label={`Turnout ${id}`}
          value={setting.turnouts[id] ?? 'normal'}
          options={TURNOUT}
          onChange={(position) => set({ turnouts: { ...setting.turnouts, [id]: position } }, id)}
        />
      ))}
      {draft.toggles.map(({ id, name }) => (
        <OnOff
          key={id}
          label={name}
          on={setting.toggles[id] ?? false}
          onChange={(on) => set({ toggles: { ...setting.toggles, [id]: on } }, id)}
        />
      ))}
    </div>
  );
}

export function SettingFields({ setting }: { readonly setting: Setting }) {
  const { change } = useChange();
  return (
    <>
      <DraftText
        label="Name"
        value={setting.name}
        onChange={(name) =>
          change(
            (draft) => withThing(draft, 'settings', setting.id, { name }),
            `name of ${setting.id}`,
            `${setting.id} name`,
          )
        }
      />
      <SettingNow setting={setting} />
      <Knobs setting={setting} />
      <Act
        kind="calm"
        onPress={() =>
          change((draft) => without(draft, 'settings', setting.id), `no more setting ${setting.name}`)
        }
      >
        Delete the setting
      </Act>
    </>
  );
}
