/** The charts of an evening: who owned which block, where each train was, who waited for what, how busy the hands were. */
import { useEffect, useMemo, useRef, useState } from 'react';
import type { EveningCharts as ChartData, ChartRange } from '../../shared-model/logbook/charts/chart-data.ts';
import { waitCause } from '../../shared-model/logbook/headline.ts';
import { namesOf } from '../../shared-model/logbook/names.ts';
import { durationText } from '../../shared-model/logbook/time-text.ts';
import { distancesFrom, firstNode, placesInOrder } from '../../shared-model/logbook/track-distance.ts';
import type { Railroad } from '../../shared-model/railroad/railroad.ts';
import { useSize } from '../board/use-sight.ts';
import { useConsole, useConsoleStore } from '../console/use-console.tsx';
import { useKnownOf } from '../console/use-known-of.ts';
import { Act } from '../parts/act.tsx';
import { useLetterSizes } from '../theme/use-letter-sizes.ts';
import { ChartFigure } from './charts/chart-figure.tsx';
import { ownershipChart } from './charts/ownership-chart.ts';
import { runningChart } from './charts/running-chart.ts';
import { throwsByMinute, throwsChart } from './charts/throws-chart.ts';
import { waitsChart } from './charts/waits-chart.ts';
import { clockOf } from './moment-text.ts';
import { useEnding, type Whole } from './use-ending.ts';
import type { OpenedEvening } from './use-evening.ts';
import './charts.css';

/** Part of the evening in one set of charts; a longer one is looked at part by part. */
const PART_SECONDS = 4 * 3600;
/** A narrower chart could not be read. */
const LEAST_WIDTH = 480;

type Charting =
  | { readonly is: 'failed'; readonly says: string }
  | { readonly is: 'read'; readonly charts: ChartData };

/** The charts of a part of an evening; null while they are being drawn up. */
function useCharts(id: string, { from, to }: ChartRange): Charting | null {
  const { connection } = useConsoleStore();
  const [charting, setCharting] = useKnownOf<Charting>(`${id} ${from} ${to}`);
  useEffect(() => {
    let wanted = true;
    void connection.call('evenings.charts', { id, from, to }).then((answer) => {
      if (!wanted) return;
      setCharting(
        answer.ok ? { is: 'read', charts: answer.value } : { is: 'failed', says: answer.problem.says },
      );
    });
    return () => {
      wanted = false;
    };
  }, [connection, id, from, to, setCharting]);
  return charting;
}

/** The places with how far along the railroad they are. */
function placesAlong(railroad: Railroad) {
  const distances = distancesFrom(railroad, firstNode(railroad));
  return placesInOrder(railroad).flatMap(({ name, at }) => {
    const distanceMm = at.map(({ toward }) => distances.get(toward)).find((one) => one !== undefined);
    return distanceMm === undefined ? [] : [{ name, distanceMm }];
  });
}

interface FiguresProps {
  readonly evening: OpenedEvening;
  readonly trains: Whole['trains'];
  readonly charts: ChartData;
  readonly width: number;
}

function Figures({ evening: { card, railroad }, charts, trains, width }: FiguresProps) {
  const { lengths, throwSeconds } = useConsole((state) => state.settings);
  const letterPx = useLetterSizes().fine;
  const names = useMemo(() => namesOf(railroad, trains, lengths), [railroad, trains, lengths]);
  const clock = clockOf(card.openedAt);
  const cabs = railroad.document.throttles.map(({ id }) => id);
  const common = { cabs, clock, width, letterPx, train: names.train };
  const rows = railroad.document.blocks.map(({ id, name }) => ({
    id,
    label: `${names.thing(id).replace('block ', '')} ${name}`,
  }));
  return (
    <>
      <ChartFigure
        evening={card}
        title="Who owned which block"
        says="A row a block. Solid: occupied; double: lined; dashed: pledged; hatched: disputed. The number is the cab’s. Above: a tall block is an alarm, a thin line a refusal."
        drawing={ownershipChart(charts, { ...common, rows })}
        table={{
          columns: ['block', 'state', 'cab', 'train', 'from', 'to', 'lasted'],
          rows: charts.owned.map(({ block, state, cab, train, from, to }) => ({
            at: from,
            cells: [
              names.thing(block),
              state,
              names.cab(cab),
              names.train(train),
              clock(from),
              clock(to),
              durationText(to - from),
            ],
          })),
        }}
      />
      <ChartFigure
        evening={card}
        title="Where each train was"
        says="What really happened, by the reports: time to the right, distance along the railroad downwards, by the shortest track. Between two reports the line is drawn straight; it breaks where a train was corrected."
        drawing={runningChart(charts, { ...common, places: placesAlong(railroad) })}
        table={{
          columns: ['train', 'cab', 'time', `${names.distanceUnit} along the railroad`],
          rows: charts.lines.flatMap(({ train, cab, points }) =>
            points.map(({ at, distanceMm }) => ({
              at,
              cells: [names.train(train), names.cab(cab), clock(at), names.distance(distanceMm)],
            })),
          ),
        }}
      />
      <ChartFigure
        evening={card}
        title="Who waited for what"
        says={
          charts.waits.length === 0
            ? 'Nobody waited.'
            : 'Above: each train’s waits, with the reason that came first. Below: how much of all waiting each block caused.'
        }
        drawing={waitsChart(charts, {
          ...common,
          cause: (thing, owner) => waitCause(names, thing, owner),
          block: names.thing,
        })}
        table={{
          columns: ['train', 'person', 'waited for', 'held by', 'from', 'to', 'lasted'],
          rows: charts.waits.map(({ train, person, thing, owner, from, to }) => ({
            at: from,
            cells: [
              names.train(train),
              person ?? '',
              names.thing(thing),
              names.train(owner),
              clock(from),
              clock(to),
              durationText(to - from),
            ],
          })),
        }}
      />
      <ChartFigure
        evening={card}
        title="Throws per minute"
        says={`Each throw takes ${throwSeconds} s of the hands.`}
        drawing={throwsChart(charts, { clock, width, letterPx, throwSeconds })}
        table={{
          columns: ['minute from', 'throws', 'load of the hands'],
          rows: throwsByMinute(charts)
            .filter(([, throws]) => throws > 0)
            .map(([minute, throws]) => ({
              at: minute * 60,
              cells: [
                clock(minute * 60),
                String(throws),
                `${Math.round((throws * throwSeconds * 100) / 60)} %`,
              ],
            })),
        }}
      />
    </>
  );
}

export function EveningCharts({ evening }: { readonly evening: OpenedEvening }) {
  const ending = useEnding(evening);
  if (ending === null) return <p role="status">Drawing.</p>;
  if ('says' in ending) return <p role="alert">{ending.says}</p>;
  return <Parts evening={evening} {...ending.whole} />;
}

function Parts({ evening, seconds, trains }: Whole & { readonly evening: OpenedEvening }) {
  const [from, setFrom] = useState(0);
  const range = { from, to: Math.min(seconds, from + PART_SECONDS) };
  const charting = useCharts(evening.card.id, range);
  const zone = useRef<HTMLDivElement>(null);
  const { width } = useSize(zone);
  const clock = clockOf(evening.card.openedAt);
  return (
    <div className="charts" ref={zone}>
      {seconds <= PART_SECONDS ? null : (
        <div className="logbook-acts">
          <Act
            kind="calm"
            onPress={() => setFrom(Math.max(0, from - PART_SECONDS))}
            notNow={from === 0 ? 'This is the beginning.' : undefined}
          >
            Four hours earlier
          </Act>
          <Act
            kind="calm"
            onPress={() => setFrom(from + PART_SECONDS)}
            notNow={from + PART_SECONDS >= seconds ? 'This is the end.' : undefined}
          >
            Four hours later
          </Act>
          <p>
            {clock(range.from)} to {clock(range.to)}, of {durationText(seconds)} in all
          </p>
        </div>
      )}
      {charting?.is === 'failed' ? <p role="alert">{charting.says}</p> : null}
      {charting === null || width === 0 ? <p role="status">Drawing.</p> : null}
      {charting?.is === 'read' && charting.charts.range.to < range.to ? (
        <p role="status">
          So much happened that the charts end at {clock(charting.charts.range.to)}, after 20,000 entries.
        </p>
      ) : null}
      {charting?.is === 'read' && width > 0 ? (
        <Figures
          evening={evening}
          charts={charting.charts}
          trains={trains}
          width={Math.max(LEAST_WIDTH, Math.floor(width))}
        />
      ) : null}
    </div>
  );
}
