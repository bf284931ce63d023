/** What each throttle, selector contact and supply carries against its limit, live during an evening. */
import { ampsText } from '../../shared-model/power/figures.ts';
import { isOver, type Load, loadsOf, worstOfSupply } from '../../shared-model/power/load.ts';
import type { Railroad } from '../../shared-model/railroad/railroad.ts';
import { drawsOf } from '../../shared-model/session/facts/draws.ts';
import { useConsole } from '../console/use-console.tsx';
import { MOST_READ } from '../logbook/through-entries.ts';
import { Table } from '../parts/table.tsx';
import { whenText } from '../parts/when-text.ts';
import { LoadBar } from './load-bar.tsx';
import { usePeaks } from './use-peaks.ts';
import type { Power } from './use-power.ts';
import './load.css';

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

interface Loads {
  readonly now: number;
  readonly peak: number;
  readonly most: number;
  readonly limit: number;
}

function Verdict({ now, peak, most, limit }: Loads) {
  if (isOver(now, limit)) return <strong>TOO MUCH NOW</strong>;
  if (isOver(peak, limit)) return <strong>too much tonight</strong>;
  if (isOver(most, limit)) return <strong>too much at most</strong>;
  return <span className="quiet">within its limit</span>;
}

/** What the breakers see comes first. */
const suppliesFirst = <Kind extends Load>(loads: readonly Kind[]): readonly Kind[] =>
  [...loads].sort((one, other) => Number(other.kind === 'supply') - Number(one.kind === 'supply'));

export function LoadSection({ power, railroad }: { readonly power: Power; readonly railroad: Railroad }) {
  const { state } = power;
  const worstSoFar = usePeaks();
  const peaks = suppliesFirst(worstSoFar?.peaks ?? []);
  const openedAt = useConsole(({ evening }) => evening?.openedAt);
  const now = suppliesFirst(loadsOf(railroad, state === null ? [] : drawsOf(railroad, state, 'now')));
  const all = state === null ? null : suppliesFirst(loadsOf(railroad, drawsOf(railroad, state, 'all')));
  const opened = Date.parse(openedAt ?? '');
  const live = all !== null;
  const since =
    worstSoFar === null || worstSoFar.since === 0
      ? 'the evening was opened'
      : `${whenText(opened + worstSoFar.since * 1000, opened)}, the last ${MOST_READ.toLocaleString('en')} entries of a long evening`;
  return (
    <div className="power-stack">
      <Table
        caption="Loads against their limits"
        captionHidden
        columns={[
          { name: 'What' },
          ...(live
            ? [
                { name: 'Now', figures: true },
                { name: 'Worst moment tonight', figures: true },
              ]
            : []),
          { name: live ? 'If all run' : 'At worst', figures: true },
          { name: 'Limit', figures: true },
          { name: 'Load' },
          { name: 'Verdict' },
        ]}
        rows={now.map((load, index) => {
          const most = all?.[index]?.amps ?? worst(railroad, load);
          const peak = peaks[index];
          const peakAmps = peak?.amps ?? 0;
          return {
            key: load.id,
            cells: [
              `${KINDS[load.kind]} ${load.name}`,
              ...(live
                ? [
                    ampsText(load.amps),
                    peak === undefined || peakAmps === 0
                      ? 'none yet'
                      : `${ampsText(peakAmps)} at ${whenText(opened + peak.at * 1000, opened)}`,
                  ]
                : []),
              ampsText(most),
              ampsText(load.limit),
              <LoadBar
                key="bar"
                name={load.name}
                now={load.amps}
                peak={peakAmps}
                most={most}
                limit={load.limit}
              />,
              <Verdict key="verdict" now={load.amps} peak={peakAmps} most={most} limit={load.limit} />,
            ],
          };
        })}
      />
      <p className="fine quiet">
        {live
          ? `Now: the trains that are on record as running (a stalled one with its stall current). Worst moment tonight: the most of that since ${since}. If all run: every train that has a cab. `
          : 'No evening goes on. At worst: the hungriest train of the railroad, on a supply one on each of its throttles. '}
        In the bar: solid what flows now, a thin line the worst moment, a broken line the most that can be,
        the thick mark the limit: of a throttle and a contact the amperes entered for it, of a supply its VA
        at its volts. Amperes come from what was entered for each train; the console measures nothing.
      </p>
    </div>
  );
}
