/** What each throttle, selector contact and supply carries against its limit, live during an evening. */
import { ampsText } from '../../shared-model/power/figures.ts';
import { isOver, type Load, loadsOf, worstOfSupply } from '../../shared-model/power/load.ts';
import type { Railroad } from '../../shared-model/railroad/railroad.ts';
import { Table } from '../parts/table.tsx';
import { drawsOf } from './draws.ts';
import { LoadBar } from './load-bar.tsx';
import type { Power } from './use-power.ts';

const KINDS: Readonly<Record<Load['kind'], string>> = {
  throttle: 'Throttle',
  selector: 'Contact of selector',
  supply: 'Supply',
};

/** At worst: on a throttle or contact the hungriest train, on a supply one on each of its throttles. */
function worst(railroad: Railroad, load: Load): number {
  const supply = railroad.document.supplies.find(({ id }) => id === load.id);
  if (supply !== undefined) return worstOfSupply(railroad, supply.id).amps;
  return Math.max(0, ...railroad.document.trains.map((train) => train.amps));
}

function verdict(now: number, most: number, limit: number): string {
  if (isOver(now, limit)) return 'TOO MUCH NOW';
  return isOver(most, limit) ? 'too much at most' : '';
}

/** What the breakers see comes first. */
const suppliesFirst = (loads: readonly Load[]): readonly Load[] =>
  [...loads].sort((one, other) => Number(other.kind === 'supply') - Number(one.kind === 'supply'));

export function LoadSection({ power, railroad }: { readonly power: Power; readonly railroad: Railroad }) {
  const { state } = power;
  const now = suppliesFirst(loadsOf(railroad, state === null ? [] : drawsOf(railroad, state, 'now')));
  const all = state === null ? null : suppliesFirst(loadsOf(railroad, drawsOf(railroad, state, 'all')));
  return (
    <div className="power-stack">
      <Table
        caption="Loads against their limits"
        captionHidden
        columns={[
          { name: 'What' },
          { name: 'Now', figures: true },
          { name: state === null ? 'At worst' : 'If all run', figures: true },
          { name: 'Limit', figures: true },
          { name: 'Load' },
          { name: 'Verdict' },
        ]}
        rows={now.map((load, index) => {
          const most = all?.[index]?.amps ?? worst(railroad, load);
          return {
            key: load.id,
            cells: [
              `${KINDS[load.kind]} ${load.name}`,
              state === null ? '–' : ampsText(load.amps),
              ampsText(most),
              ampsText(load.limit),
              <LoadBar key="bar" name={load.name} now={load.amps} most={most} limit={load.limit} />,
              <strong key="verdict">{verdict(load.amps, most, load.limit)}</strong>,
            ],
          };
        })}
      />
      <p className="fine quiet">
        {state === null
          ? 'No evening goes on. At worst: the hungriest train of the railroad, on a supply one on each of its throttles. '
          : 'Now: the trains that are on record as running (a stalled one with its stall current). If all run: every train that has a cab. '}
        The figures come from what was entered for each train; the console measures nothing.
      </p>
    </div>
  );
}
