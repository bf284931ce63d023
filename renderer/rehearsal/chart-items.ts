/** Everything of the chart that can be looked at, in words: stays, throws, words of the voice and conflicts; and how the arrow keys go from one to the next. */
import { type ConflictMark, conflictMarks } from '../../shared-model/planning/chart/chart-model.ts';
import { clockText } from '../../shared-model/planning/chart/chart-ticks.ts';
import type { BlockTime } from '../../shared-model/planning/timing.ts';
import type { Railroad } from '../../shared-model/railroad/railroad.ts';
import type { Seconds } from '../../shared-model/units.ts';
import type { PlanKept, PlanSeen } from './made-plan.ts';
import { blockName, faultWords, throwWords, trainWords } from './words.ts';

export interface ChartItem {
  readonly key: string;
  /** Its row; the hands have the one after the blocks, the voice the one after that. */
  readonly row: number;
  readonly at: Seconds;
  readonly till: Seconds;
  readonly says: string;
}

/** "K5 to 1 at 0:12". */
const thrownWords = ({ answer }: PlanKept, place: number): readonly string[] =>
  answer.throws.slice(place, place + 1).map((one) => `${throwWords(one)} at ${clockText(one.at)}`);

/** "No. 24 in 5 Mill: blocked from 0:24 until 0:36; head in 0:29, tail out 0:34; K5 to 4 at 0:24." */
function stayWords(railroad: Railroad, plan: PlanKept, stay: BlockTime): string {
  const when = (time: Seconds | null, none: string): string => (time === null ? none : clockText(time));
  const till = when(stay.till, 'the end');
  const blocked =
    stay.from === null ? `blocked until ${till}` : `blocked from ${clockText(stay.from)} until ${till}`;
  const heads = stay.headIn === null ? 'stands there at first' : `head in ${clockText(stay.headIn)}`;
  const tail = stay.tailOut === null ? 'stays there' : `tail out ${clockText(stay.tailOut)}`;
  const thrown = stay.throws.flatMap((place) => thrownWords(plan, place));
  return `${trainWords(railroad, stay.train)} in ${blockName(railroad, stay.block)}: ${[
    blocked,
    `${heads}, ${tail}`,
    ...(thrown.length === 0 ? [] : [thrown.join(', ')]),
  ].join('; ')}.`;
}

/** What a mark of conflicts says. */
export const markWords = (railroad: Railroad, { faults }: ConflictMark): string =>
  faults.map((fault) => faultWords(railroad, fault)).join(' ');

export const stayKey = (place: number): string => `stay ${place}`;
export const workKey = (lane: string, of: number): string => `${lane} ${of}`;
export const conflictKey = ({ key }: ConflictMark): string => `conflict ${key}`;

export function chartItems(
  railroad: Railroad,
  plan: PlanKept,
  { chart, timing }: Pick<PlanSeen, 'chart' | 'timing'>,
): readonly ChartItem[] {
  const stays = chart.bars.map((bar, place): ChartItem => {
    const stay = timing.blocks[place];
    const says = stay === undefined ? '' : stayWords(railroad, plan, stay);
    return { key: stayKey(place), row: bar.row, at: bar.from, till: bar.till, says };
  });
  const hands = chart.hands.map(
    ({ at, till, of }): ChartItem => ({
      key: workKey('hands', of),
      row: chart.rows.length,
      at,
      till,
      says: `The hands: ${thrownWords(plan, of).join('')}.`,
    }),
  );
  const voice = chart.voice.map(
    ({ at, till, of }): ChartItem => ({
      key: workKey('voice', of),
      row: chart.rows.length + 1,
      at,
      till,
      says: `The voice: words for ${trainWords(railroad, plan.answer.moves[of]?.train ?? '')}, ${clockText(at)} to ${clockText(till)}.`,
    }),
  );
  const conflicts = conflictMarks(chart).map(
    (mark): ChartItem => ({
      key: conflictKey(mark),
      row: mark.row,
      at: mark.at,
      till: mark.till,
      says: `Conflict: ${markWords(railroad, mark)}`,
    }),
  );
  return [...stays, ...hands, ...voice, ...conflicts];
}

/** Where an arrow key leads from an item: along its row in time, or to the nearest moment of the next row that has any. */
export function itemTowards(
  items: readonly ChartItem[],
  now: string | null,
  key: string,
): ChartItem | undefined {
  const here = items.find((item) => item.key === now);
  if (here === undefined) return items[0];
  const row = items.filter((item) => item.row === here.row).sort((one, other) => one.at - other.at);
  if (key === 'ArrowLeft' || key === 'ArrowRight')
    return row[row.indexOf(here) + (key === 'ArrowLeft' ? -1 : 1)] ?? here;
  if (key === 'Home' || key === 'End') return row.at(key === 'Home' ? 0 : -1);
  const step = key === 'ArrowUp' ? -1 : 1;
  const beyond = items.map((item) => (item.row - here.row) * step).filter((rows) => rows > 0);
  const next = here.row + step * Math.min(...beyond);
  const there = items.filter((item) => item.row === next);
  return there.reduce<ChartItem>(
    (best, item) => (Math.abs(item.at - here.at) < Math.abs(best.at - here.at) ? item : best),
    there[0] ?? here,
  );
}
