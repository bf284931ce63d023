/** What a train across the gap would let flow at these readings, against each breaker. */
import { bridgeOfSupplies } from '../../shared-model/power/bridging.ts';
import { ampsText } from '../../shared-model/power/figures.ts';
import { PARALLEL_FORBIDDEN, TOUCHABLE_VOLTS } from '../../shared-model/power/supply-limits.ts';
import type { Supply } from '../../shared-model/railroad/document.ts';
import { Table } from '../parts/table.tsx';

interface BridgeTableProps {
  readonly a: Supply;
  readonly b: Supply;
  readonly voltsAcross: number;
}

export function BridgeTable({ a, b, voltsAcross }: BridgeTableProps) {
  const bridge = bridgeOfSupplies(a, b, voltsAcross);
  const name = (id: string) => (id === a.id ? a.name : b.name);
  return (
    <div className="power-stack">
      <p>
        {bridge.says} At the posts, over {Number((a.impedanceOhms + b.impedanceOhms).toPrecision(3))} ohm of
        both supplies; the wire between is not counted, so it is the most that can flow.
      </p>
      <Table
        caption="A bridged gap against each breaker"
        columns={[
          { name: 'Breaker of' },
          { name: 'Rated', figures: true },
          { name: 'Carries', figures: true },
          { name: 'Times its rating', figures: true },
          { name: 'What it does' },
        ]}
        rows={bridge.breakers.map(({ of, rating, times, says }) => ({
          key: of,
          cells: [
            name(of),
            ampsText(rating),
            ampsText(bridge.amps ?? 0),
            Number.isFinite(times) ? times.toFixed(2) : '–',
            says.slice(says.indexOf(': ') + 2),
          ],
        }))}
      />
      {voltsAcross > TOUCHABLE_VOLTS ? (
        <p>
          More than {TOUCHABLE_VOLTS} V stands between the two, which is more than may be touched (NEC class
          2: 30 V; IEC 61558-2-7: 33 V without load). Keep hands off.
        </p>
      ) : null}
      <p className="fine quiet">{PARALLEL_FORBIDDEN}</p>
    </div>
  );
}
