/** The figures on the plate of one supply. */
import { CURRENT, VOLTAGE } from '../../../shared-model/power/ranges.ts';
import { BREAKER_KINDS, type Supply, USES, WAVES } from '../../../shared-model/railroad/document.ts';
import { withThing } from '../../../shared-model/railroad/editing/things.ts';
import { OnOff, PickBox } from '../../parts/field.tsx';
import { DraftFigure, DraftText } from '../draft-field.tsx';
import { ThingId } from '../thing-id.tsx';
import { useDraft } from '../use-drawing.tsx';
import { useChange } from './use-change.ts';

const VA = { least: 0, above: true, most: 100_000, unit: 'volt-amperes' } as const;
const OHMS = { least: 0, most: 100, unit: 'ohm' } as const;

const plain = <Value extends string>(values: readonly Value[]) =>
  values.map((value) => ({ value, says: value }));

interface SupplyFieldsProps {
  readonly supply: Supply;
  readonly onRenamed: (id: string) => void;
}

export function SupplyFields({ supply, onRenamed }: SupplyFieldsProps) {
  const { system } = useDraft();
  const { change } = useChange();
  const set = (fields: Partial<Supply>, says: string, field?: string) =>
    change((draft) => withThing(draft, 'supplies', supply.id, fields), `${says} of ${supply.name}`, field);
  const figure =
    (field: 'ratedVa' | 'maxVolts' | 'impedanceOhms' | 'breakerAmps', says: string) =>
    (value: number | undefined) =>
      value !== undefined && set({ [field]: value }, says, `${supply.id} ${field}`);
  return (
    <>
      <DraftText
        label="Name"
        value={supply.name}
        onChange={(name) => set({ name }, 'name', `${supply.id} name`)}
      />
      <ThingId id={supply.id} onRenamed={onRenamed} />
      <div className="wiring-fields">
        <DraftFigure
          label="Output (VA)"
          value={supply.ratedVa}
          range={VA}
          onChange={figure('ratedVa', 'output')}
        />
        <DraftFigure
          label="Volts, full up"
          value={supply.maxVolts}
          range={VOLTAGE}
          onChange={figure('maxVolts', 'volts')}
        />
        <DraftFigure
          label="Impedance (ohm)"
          value={supply.impedanceOhms}
          range={OHMS}
          onChange={figure('impedanceOhms', 'impedance')}
        />
        <DraftFigure
          label="Breaker (A)"
          value={supply.breakerAmps}
          range={CURRENT}
          onChange={figure('breakerAmps', 'breaker')}
        />
      </div>
      <OnOff
        label="Output is an estimate"
        hint="The plate tells only the input: two thirds of it is entered."
        on={supply.estimated === true}
        onChange={(on) =>
          change(
            (draft) => withThing(draft, 'supplies', supply.id, { estimated: on ? true : undefined }),
            `estimate of ${supply.name}`,
          )
        }
      />
      <div className="wiring-fields">
        <PickBox
          label="Breaker is"
          value={supply.breakerKind ?? 'unknown'}
          options={plain(BREAKER_KINDS)}
          onChange={(breakerKind) => set({ breakerKind }, 'kind of breaker')}
        />
        <PickBox
          label="Wave"
          value={supply.wave ?? 'unknown'}
          options={plain(WAVES)}
          onChange={(wave) => set({ wave }, 'wave')}
        />
        <PickBox
          label="For"
          value={supply.use ?? 'track'}
          options={plain(USES)}
          onChange={(use) => set({ use }, 'use')}
        />
      </div>
      {system === 'two-rail-dc' ? (
        <OnOff
          label="Isolated"
          hint="Its outputs have no common with those of other supplies."
          on={supply.isolated === true}
          onChange={(isolated) => set({ isolated }, 'isolation')}
        />
      ) : null}
    </>
  );
}
