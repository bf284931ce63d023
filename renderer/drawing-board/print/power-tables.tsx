/** Supplies with their record of phase checks, throttles, toggles and turnouts, for the notebook. */
import { phaseGroups } from '../../../shared-model/power/phase-groups.ts';
import type { Railroad } from '../../../shared-model/railroad/railroad.ts';
import { Table } from '../../parts/table.tsx';
import type { DatedCheck } from '../../power-room/dated-check.ts';

const RELATIONS = {
  same: 'the same',
  'in-phase': 'in phase',
  reversed: 'REVERSED',
  'different-legs': 'DIFFERENT LEGS',
  unknown: 'not known',
} as const;

/** Every pair of supplies, what is known of it, and the last reading with an empty line to write the next one on. */
function PhaseRecord({
  railroad,
  checks,
}: {
  readonly railroad: Railroad;
  readonly checks: readonly DatedCheck[];
}) {
  const { supplies } = railroad.document;
  const groups = phaseGroups(checks);
  const pairs = supplies.flatMap((one, index) =>
    supplies.slice(index + 1).map((other) => [one, other] as const),
  );
  if (pairs.length === 0) return <p>One supply needs no phase check.</p>;
  return (
    <Table
      caption="Phase record"
      columns={[{ name: 'Supplies' }, { name: 'Are' }, { name: 'Last reading' }, { name: 'Measured again' }]}
      rows={pairs.map(([one, other]) => {
        const last = checks.findLast(
          ({ a, b }) => (a === one.id && b === other.id) || (a === other.id && b === one.id),
        );
        return {
          key: `${one.id} ${other.id}`,
          cells: [
            `${one.name} and ${other.name}`,
            RELATIONS[groups.relation(one.id, other.id)],
            last === undefined
              ? 'none'
              : `${new Date(last.measuredAt).toLocaleDateString()}: ${last.voltsA} V, ${last.voltsB} V, ${last.voltsAcross} V across`,
            '____ V ____ V ____ V across, on ________',
          ],
        };
      })}
    />
  );
}

interface PowerTablesProps {
  readonly railroad: Railroad;
  readonly checks: readonly DatedCheck[];
}

export function PowerTables({ railroad, checks }: PowerTablesProps) {
  const { supplies, throttles, toggles, blocks, nodes } = railroad.document;
  const turnouts = nodes.filter((node) => node.kind === 'turnout');
  return (
    <>
      <Table
        caption="Supplies"
        columns={[
          { name: 'Supply' },
          { name: 'Output', figures: true },
          { name: 'Volts', figures: true },
          { name: 'Impedance', figures: true },
          { name: 'Breaker' },
          { name: 'Wave' },
          { name: 'Throttles' },
        ]}
        rows={supplies.map((supply) => ({
          key: supply.id,
          cells: [
            supply.name,
            `${supply.estimated === true ? 'about ' : ''}${supply.ratedVa} VA`,
            `${supply.maxVolts} V`,
            `${supply.impedanceOhms} ohm`,
            `${supply.breakerAmps} A, ${supply.breakerKind ?? 'unknown'}`,
            supply.wave ?? 'unknown',
            throttles
              .filter((throttle) => throttle.supply === supply.id)
              .map(({ name, maxAmps }) => `${name} (${maxAmps} A)`)
              .join(', '),
          ],
        }))}
      />
      <PhaseRecord railroad={railroad} checks={checks} />
      {toggles.length === 0 ? null : (
        <Table
          caption="Toggles"
          columns={[{ name: 'Toggle' }, { name: 'Name' }, { name: 'Cuts off' }, { name: 'Behind' }]}
          rows={toggles.map(({ id, name }) => {
            const behind = blocks.filter(({ source }) => 'toggle' in source && source.toggle === id);
            const from = behind.flatMap(({ source }) => ('toggle' in source ? [source.from] : []));
            return {
              key: id,
              cells: [id, name, behind.map((block) => block.name).join(', '), from.join(', ')],
            };
          })}
        />
      )}
      {turnouts.length === 0 ? null : (
        <Table
          caption="Turnouts"
          columns={[
            { name: 'Turnout' },
            { name: 'Block' },
            { name: 'Points end' },
            { name: 'Normal' },
            { name: 'Reverse' },
          ]}
          rows={turnouts.map(({ id, trunk, normal, reverse, selfLining }) => {
            const block = railroad.blockOfEdge.get(trunk);
            return {
              key: id,
              cells: [
                selfLining === true ? `${id}, self-lining` : id,
                block === undefined ? 'dead track' : (railroad.blocks.get(block)?.name ?? block),
                trunk,
                normal,
                reverse,
              ],
            };
          })}
        />
      )}
    </>
  );
}
