/** Every feeder of the railroad, and how much wire of each gauge that is, in all and by cable route. */
import { gaugeText } from '../../../shared-model/power/wire.ts';
import type { RailroadDocument } from '../../../shared-model/railroad/document.ts';
import { type GaugeTotal, wiringSchedule } from '../../../shared-model/railroad/notebook/wiring-schedule.ts';
import { useConsole } from '../../console/use-console.tsx';
import { Table } from '../../parts/table.tsx';
import { RUN_UNITS, runText } from '../../power-room/run-unit.ts';

export function FeederTables({ document }: { readonly document: RailroadDocument }) {
  const unit = RUN_UNITS[useConsole((state) => state.settings.lengths)];
  const { feeders, routes, totals, notGiven } = wiringSchedule(document);
  const runs = (given: readonly GaugeTotal[]) =>
    given.map(({ awg, run }) => `${runText(run, unit)} of ${gaugeText(awg)}`).join(', ') || 'not given';
  const { commonBus } = document;
  return (
    <>
      <Table
        caption={`Feeders (${feeders.length})`}
        columns={[
          { name: 'Block' },
          { name: 'Name' },
          { name: 'From' },
          { name: 'Track' },
          { name: 'Wire' },
          { name: 'Terminal' },
          { name: 'Way' },
        ]}
        rows={feeders.map(({ mark, blockName, source, edge, pieces, terminal, route }, index) => ({
          key: `${index} ${edge}`,
          cells: [
            mark,
            blockName,
            source,
            edge,
            pieces.map(({ awg, run }) => `${gaugeText(awg)}, ${runText(run, unit)}`).join(' + ') ||
              '________',
            terminal ?? '____',
            route ?? '____',
          ],
        }))}
      />
      <Table
        caption="Cable routes"
        columns={[{ name: 'Way' }, { name: 'Feeders', figures: true }, { name: 'Wire, one way' }]}
        rows={routes.map(({ route, feeders: count, totals: along }) => ({
          key: route ?? '',
          cells: [route ?? 'without a way', count, runs(along)],
        }))}
      />
      <Table
        caption="Wire in all, by gauge"
        columns={[
          { name: 'Gauge' },
          { name: 'Run, one way', figures: true },
          { name: 'Pieces', figures: true },
        ]}
        rows={totals.map(({ awg, run, pieces }) => ({
          key: String(awg),
          cells: [gaugeText(awg), runText(run, unit), pieces],
        }))}
      />
      <p>
        {commonBus === undefined
          ? 'No common bus is entered.'
          : `With the common bus, ${runText(commonBus.run, unit)} of ${gaugeText(commonBus.awg)}.`}{' '}
        {notGiven === 0
          ? 'The wire of every feeder is given.'
          : `Not counted: ${notGiven === 1 ? 'a feeder' : `${notGiven} feeders`} whose wire is not given.`}
      </p>
    </>
  );
}
