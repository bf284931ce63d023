/** The charts of an evening, or of a part of it, from the fold alone. */
import type { Railroad } from '../../railroad/railroad.ts';
import type { SessionEvent } from '../../session/event.ts';
import type { SessionState } from '../../session/state.ts';
import type { Seconds } from '../../units.ts';
import { thrownBy } from '../count.ts';
import { type EveningReader, readThrough, type Step } from '../pass.ts';
import type { ChartMark, ChartRange, EveningCharts } from './chart-data.ts';
import { Ownership } from './ownership.ts';
import { Running } from './running.ts';
import { Waiting } from './waiting.ts';

class Happened implements EveningReader {
  readonly marks: ChartMark[] = [];
  readonly throws: Seconds[] = [];

  take({ event, counts }: Step): void {
    if (!counts) return;
    const { entry, at, outcome, reasons } = event;
    if (outcome !== 'done') this.marks.push({ entry, at, outcome, codes: reasons.map(({ code }) => code) });
    if (thrownBy(event) !== null) this.throws.push(at);
  }
}

/**
 * A reader that gathers what the charts of a part of an evening are drawn from.
 *
 * @param from where the part begins
 * @param state just before it
 */
export function chartsReader(
  railroad: Railroad,
  from: Seconds,
  state: SessionState,
): EveningReader & { readonly charts: (to: Seconds) => EveningCharts } {
  const owned = new Ownership(state, from);
  const waiting = new Waiting(railroad, state, from);
  const running = new Running(railroad, state, from);
  const happened = new Happened();
  const readers = [owned, waiting, running, happened];
  const blocks = railroad.document.blocks.map(({ id }) => id);
  return {
    take: (step) => {
      for (const reader of readers) reader.take(step);
    },
    charts: (to) => ({
      range: { from, to },
      owned: owned.spans(blocks, to),
      waits: waiting.spans(to),
      lines: running.lines(to),
      marks: happened.marks,
      throws: happened.throws,
    }),
  };
}

/**
 * Works out what the charts are drawn from.
 *
 * @param range the part of the evening that is shown
 * @param state just before `range.from`
 * @param events those of the range, in the order of the log
 * @param retracted entries of the whole evening that were taken back
 */
export function eveningCharts(
  railroad: Railroad,
  range: ChartRange,
  state: SessionState,
  events: readonly SessionEvent[],
  retracted: ReadonlySet<number>,
): EveningCharts {
  const reader = chartsReader(railroad, range.from, state);
  readThrough(state, events, retracted, [reader]);
  return reader.charts(range.to);
}
