/** Saved settings of all knobs: made from how the evening stands, or so that each loop runs by itself. */
import { useState } from 'react';
import { type SettingId, settingId } from '../../../shared-model/ids.ts';
import { displaySetting } from '../../../shared-model/railroad/display-setting.ts';
import { type DraftDocument, freshId } from '../../../shared-model/railroad/editing/draft.ts';
import { withNew } from '../../../shared-model/railroad/editing/things.ts';
import { isThrown } from '../../../shared-model/railroad/travel.ts';
import { type Positions, positionsNow } from '../../../shared-model/session/setting-orders.ts';
import { useConsole } from '../../console/use-console.tsx';
import { Act } from '../../parts/act.tsx';
import { useDraft, useDraftAudit, useDraftRailroad } from '../use-drawing.tsx';
import { Disclosure } from '../wiring/disclosure.tsx';
import { useChange } from '../wiring/use-change.ts';
import { SettingFields } from './setting-fields.tsx';
import '../wiring/wiring.css';

/** Everything off and normal. */
const allOff = ({ selectors, nodes, toggles }: DraftDocument): Positions => ({
  selectors: Object.fromEntries(selectors.map(({ id }) => [id, 'off' as const])),
  turnouts: Object.fromEntries(nodes.filter(isThrown).map(({ id }) => [id, 'normal' as const])),
  toggles: Object.fromEntries(toggles.map(({ id }) => [id, false])),
});

/** What of some positions this draft has a knob for, all others off and normal. */
function fitting(draft: DraftDocument, { selectors, turnouts, toggles }: Positions): Positions {
  const off = allOff(draft);
  const known = <Value,>(all: Record<string, Value>, given: Record<string, Value>) =>
    Object.fromEntries(Object.keys(all).map((id) => [id, given[id] ?? (all[id] as Value)]));
  return {
    selectors: known(off.selectors, selectors),
    turnouts: known(off.turnouts, turnouts),
    toggles: known(off.toggles, toggles),
  };
}

/** The display setting, where the draft is whole enough to ask for it. */
function useDisplay() {
  const railroad = useDraftRailroad();
  const audit = useDraftAudit();
  const broken =
    audit === null ||
    audit.malformed !== null ||
    audit.findings.some(({ code }) => code === 'broken-reference');
  return broken ? null : displaySetting(railroad);
}

export function SettingsSheet() {
  const draft = useDraft();
  const { change } = useChange();
  const evening = useConsole((state) => state.evening);
  const display = useDisplay();
  const [open, setOpen] = useState<SettingId | null>(null);
  const make = (name: string, positions: Positions) => {
    const id = settingId.parse(freshId(draft, 'setting'));
    change((before) => withNew(before, 'settings', { id, name, ...positions }), `setting ${name}`);
    setOpen(id);
  };
  const going = evening !== null && evening.state.phase !== 'ended' ? evening : null;
  return (
    <div className="wiring">
      <p className="fine quiet">
        A setting is a position for every knob. Making up an evening, it can be applied in one act.
      </p>
      <p className="drawing-board-acts">
        <Act
          kind="calm"
          notNow={going === null ? 'no evening goes on' : undefined}
          onPress={() => going !== null && make('As it stands', fitting(draft, positionsNow(going.state)))}
        >
          As the evening stands
        </Act>
        <Act kind="calm" onPress={() => make('All off', allOff(draft))}>
          All off and normal
        </Act>
        {display === null ? null : (
          <Act kind="calm" onPress={() => make('Display', display.positions)}>
            {display.loops.length === 1
              ? 'Display: the loop by itself'
              : `Display: each of ${display.loops.length} loops on its own throttle`}
          </Act>
        )}
      </p>
      {display === null ? (
        <p className="fine quiet">
          A display setting is offered when each loop closes with its turnouts normal, and all its blocks can
          be on a throttle that no other loop needs.
        </p>
      ) : null}
      {draft.settings.length === 0 ? <p>No setting is saved.</p> : null}
      <ul className="wiring-list">
        {draft.settings.map((setting) => (
          <Disclosure
            key={setting.id}
            id={setting.id}
            mark={String(Object.values(setting.selectors).filter((position) => position !== 'off').length)}
            name={setting.name}
            says="selectors not at off"
            open={open === setting.id}
            onToggle={() => setOpen(open === setting.id ? null : setting.id)}
          >
            <SettingFields setting={setting} />
          </Disclosure>
        ))}
      </ul>
    </div>
  );
}
