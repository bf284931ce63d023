/** Supplies and throttles, as their plates say. */
import { useState } from 'react';
import { CURRENT } from '../../../shared-model/power/ranges.ts';
import type { Throttle } from '../../../shared-model/railroad/document.ts';
import { offDials, onEveryDial } from '../../../shared-model/railroad/editing/dials.ts';
import {
  withNewSupply,
  withNewThrottle,
  withoutSupply,
  withoutThrottle,
} from '../../../shared-model/railroad/editing/power-things.ts';
import { withThing } from '../../../shared-model/railroad/editing/things.ts';
import { Act } from '../../parts/act.tsx';
import { PickBox } from '../../parts/field.tsx';
import { DraftFigure, DraftText } from '../draft-field.tsx';
import { ThingId } from '../thing-id.tsx';
import { useDraft } from '../use-drawing.tsx';
import { Disclosure } from './disclosure.tsx';
import { FindingsAbout } from './findings-about.tsx';
import { SupplyFields } from './supply-fields.tsx';
import { useChange } from './use-change.ts';

interface ThrottleFieldsProps {
  readonly throttle: Throttle;
  readonly onRenamed: (id: string) => void;
}

function ThrottleFields({ throttle, onRenamed }: ThrottleFieldsProps) {
  const draft = useDraft();
  const { change, attempt } = useChange();
  const set = (fields: Partial<Throttle>, says: string, field?: string) =>
    change(
      (before) => withThing(before, 'throttles', throttle.id, fields),
      `${says} of ${throttle.name}`,
      field,
    );
  return (
    <>
      <DraftText
        label="Name"
        value={throttle.name}
        onChange={(name) => set({ name }, 'name', `${throttle.id} name`)}
      />
      <ThingId id={throttle.id} onRenamed={onRenamed} />
      <FindingsAbout concerns={({ about }) => about[0] === throttle.id} />
      <PickBox
        label="Supply"
        value={throttle.supply}
        options={draft.supplies.map(({ id, name }) => ({ value: id, says: name }))}
        onChange={(supply) => set({ supply }, 'supply')}
      />
      <div className="wiring-fields">
        <DraftFigure
          label="Carries (A)"
          value={throttle.maxAmps}
          range={CURRENT}
          onChange={(maxAmps) => maxAmps !== undefined && set({ maxAmps }, 'current', `${throttle.id} amps`)}
        />
        <DraftFigure
          label="Breaker of its own (A)"
          optional
          value={throttle.breakerAmps}
          range={CURRENT}
          onChange={(breakerAmps) =>
            change(
              (before) => withThing(before, 'throttles', throttle.id, { breakerAmps }),
              `breaker of ${throttle.name}`,
              `${throttle.id} breaker`,
            )
          }
        />
      </div>
      <p className="drawing-board-acts">
        <Act
          kind="calm"
          onPress={() =>
            change((before) => onEveryDial(before, throttle.id), `${throttle.name} on every dial`)
          }
        >
          Put it on every dial
        </Act>
        <Act
          kind="calm"
          onPress={() =>
            attempt((before) => withoutThrottle(before, throttle.id), `no more ${throttle.name}`)
          }
        >
          Take the throttle out
        </Act>
      </p>
    </>
  );
}

/** A throttle that no dial leads to reaches no block: told at once, since dials made before it know nothing of it. */
function OffDials() {
  const draft = useDraft();
  const { change } = useChange();
  const off = offDials(draft);
  if (off.length === 0) return null;
  const names = off.map(({ name }) => name).join(', ');
  return (
    <section className="wiring-dead" aria-label="Throttles on no dial">
      <p>
        {names}: no dial has a position for {off.length === 1 ? 'it' : 'them'}.
      </p>
      <p className="drawing-board-acts">
        <Act
          kind="calm"
          onPress={() =>
            change(
              (before) => offDials(before).reduce((so, { id }) => onEveryDial(so, id), before),
              `${names} on every dial`,
            )
          }
        >
          {`Put ${off.length === 1 ? 'it' : 'them'} on every dial`}
        </Act>
      </p>
    </section>
  );
}

export function PowerSection() {
  const draft = useDraft();
  const { change, attempt } = useChange();
  const [open, setOpen] = useState<string | null>(null);
  const toggled = (id: string) => setOpen(open === id ? null : id);
  const nameOf = (supply: string) =>
    draft.supplies.find(({ id }) => id === supply)?.name ?? `${supply} (gone)`;
  return (
    <>
      <h3>Supplies</h3>
      {draft.supplies.length === 0 ? (
        <p className="fine quiet">None yet: the first throttle brings one with it.</p>
      ) : null}
      <ul className="wiring-list">
        {draft.supplies.map((supply) => (
          <Disclosure
            key={supply.id}
            id={supply.id}
            mark={supply.id}
            name={supply.name}
            says={`${supply.ratedVa} VA, ${supply.maxVolts} V, breaker ${supply.breakerAmps} A`}
            open={open === supply.id}
            onToggle={() => toggled(supply.id)}
          >
            <SupplyFields supply={supply} onRenamed={setOpen} />
            <FindingsAbout concerns={({ about }) => about[0] === supply.id} />
            <Act
              kind="calm"
              onPress={() => attempt((before) => withoutSupply(before, supply.id), `no more ${supply.name}`)}
            >
              Take the supply out
            </Act>
          </Disclosure>
        ))}
      </ul>
      <Act kind="calm" onPress={() => change(withNewSupply, 'another supply')}>
        Another supply
      </Act>
      <h3>Throttles</h3>
      <OffDials />
      <ul className="wiring-list">
        {draft.throttles.map((throttle) => (
          <Disclosure
            key={throttle.id}
            id={throttle.id}
            mark={throttle.id}
            name={throttle.name}
            says={`${nameOf(throttle.supply)}, ${throttle.maxAmps} A`}
            open={open === throttle.id}
            onToggle={() => toggled(throttle.id)}
          >
            <ThrottleFields throttle={throttle} onRenamed={setOpen} />
          </Disclosure>
        ))}
      </ul>
      <Act kind="calm" onPress={() => change(withNewThrottle, 'another throttle')}>
        Another throttle
      </Act>
    </>
  );
}
