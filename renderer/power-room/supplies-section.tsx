/** The supplies and what each can drive. */
import { useState } from 'react';
import { bridgeWithinSupply } from '../../shared-model/power/bridging.ts';
import { ampsText, voltsText } from '../../shared-model/power/figures.ts';
import { isOver, supplyLimit, worstOfSupply } from '../../shared-model/power/load.ts';
import { beyondToyLimits } from '../../shared-model/power/supply-limits.ts';
import type { Supply, Throttle } from '../../shared-model/railroad/document.ts';
import type { Railroad } from '../../shared-model/railroad/railroad.ts';
import { Act } from '../parts/act.tsx';
import { Table } from '../parts/table.tsx';
import type { Power } from './use-power.ts';

/** How many of the railroad's trains, the hungriest first, a supply drives at once. */
function drives(railroad: Railroad, supply: Supply): string {
  const limit = supplyLimit(supply);
  const throttles = railroad.document.throttles.filter((throttle) => throttle.supply === supply.id);
  const worst = worstOfSupply(railroad, supply.id);
  if (throttles.length === 0) return 'no throttle';
  if (worst.trains.length === 0) return 'no train is entered yet';
  const names = worst.trains.map((id) => railroad.trains.get(id)?.name ?? id).join(', ');
  return isOver(worst.amps, limit)
    ? `not the hungriest together: ${names} draw ${ampsText(worst.amps)}`
    : `any train on each throttle; at worst ${names}, ${ampsText(worst.amps)}`;
}

/** What is worth knowing of a supply beside its figures. */
function notes(railroad: Railroad, supply: Supply): readonly string[] {
  const throttles = railroad.document.throttles.filter((throttle) => throttle.supply === supply.id);
  return [
    ...beyondToyLimits(supply),
    ...(throttles.length > 1 ? [bridgeWithinSupply(supply, throttles).says] : []),
    ...(supply.impedanceOhms === 0
      ? [`The impedance of ${supply.name} is entered as 0 ohm, so currents of shorts come out too high.`]
      : []),
  ];
}

/** One line for each, so that a figure stays with its unit. */
function Throttles({ throttles }: { readonly throttles: readonly Throttle[] }) {
  if (throttles.length === 0) return <>none</>;
  return throttles.map(({ id, name, maxAmps }) => (
    <span key={id} className="power-line">
      {name} ({ampsText(maxAmps)})
    </span>
  ));
}

export function SuppliesSection({ power, railroad }: { readonly power: Power; readonly railroad: Railroad }) {
  const [says, setSays] = useState<string | null>(null);
  const { supplies, throttles } = railroad.document;
  const replugged = async (supply: Supply) => {
    const problem = await power.keepReplugging(supply.id);
    setSays(problem ?? `${supply.name} was replugged: its phase checks lapsed.`);
  };
  const remarks = supplies.flatMap((supply) => notes(railroad, supply));
  return (
    <div className="power-stack">
      <Table
        caption="Supplies"
        captionHidden
        columns={[
          { name: 'Supply' },
          { name: 'Rated', figures: true },
          { name: 'Full up', figures: true },
          { name: 'Can give', figures: true },
          { name: 'Breaker', figures: true },
          { name: 'Impedance', figures: true },
          { name: 'Wave' },
          { name: 'Throttles' },
          { name: 'Drives' },
          { name: 'Its plug' },
        ]}
        rows={supplies.map((supply) => ({
          key: supply.id,
          cells: [
            supply.name,
            `${supply.estimated === true ? 'about ' : ''}${supply.ratedVa} VA`,
            voltsText(supply.maxVolts),
            ampsText(supplyLimit(supply)),
            `${ampsText(supply.breakerAmps)}, ${supply.breakerKind ?? 'unknown'}`,
            `${supply.impedanceOhms} ohm`,
            supply.wave ?? 'unknown',
            <Throttles key="throttles" throttles={throttles.filter((each) => each.supply === supply.id)} />,
            drives(railroad, supply),
            <Act
              key="replugged"
              kind="calm"
              label={`${supply.name} was replugged`}
              onPress={() => void replugged(supply)}
            >
              Was replugged
            </Act>,
          ],
        }))}
      />
      {says === null ? null : <p role="status">{says}</p>}
      {remarks.length === 0 ? null : (
        <ul className="notes">
          {remarks.map((remark) => (
            <li key={remark}>{remark}</li>
          ))}
        </ul>
      )}
      <p className="fine quiet">
        Rated output, volts full up (RMS), breaker, impedance, wave, and the amperes of each throttle are as
        they were entered on the drawing board. Can give: the rated VA at full volts. Drives: the hungriest
        trains of this railroad, one on each throttle, by the amperes entered for them.
      </p>
    </div>
  );
}
