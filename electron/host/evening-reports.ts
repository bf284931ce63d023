/** Sheet, figures and charts of an evening that was, worked out in short turns: the evening that is going on does not wait for them. */
import { setImmediate } from 'node:timers/promises';
import type { ChartRange, EveningCharts } from '../../shared-model/logbook/charts/chart-data.ts';
import { chartsReader } from '../../shared-model/logbook/charts/evening-charts.ts';
import { figuresReader } from '../../shared-model/logbook/figures.ts';
import { type EveningReader, readThrough } from '../../shared-model/logbook/pass.ts';
import { sheetReader } from '../../shared-model/logbook/train-sheet.ts';
import { indexRailroad } from '../../shared-model/railroad/railroad.ts';
import type { SessionState } from '../../shared-model/session/state.ts';
import type { ReplyOf } from '../../shared-model/wire/contract.ts';
import { type Bad, bad, type Good, good } from './answers.ts';
import { readDocument } from './log/documents.ts';
import { readEvents } from './log/events.ts';
import type { ReadableLog } from './log/log.ts';
import { entryAt, retractedIn } from './log/moments.ts';
import { initialStateOf, type SessionRow } from './log/sessions.ts';
import { stateAt } from './log/state-at.ts';
import type { Pushes } from './pushes.ts';

/** Entries in one turn: some milliseconds' work. */
const PIECE = 200;
/** So many entries gone through are worth telling. */
const TOLD_EVERY = 10_000;
/** Most entries in the charts of one answer: more would be too much to draw. */
const MOST_CHARTED = 20_000;

const GIVEN_UP = bad('refused', 'This was given up.');

type Report = ReplyOf<'evenings.report'>;

interface Stretch {
  readonly session: number;
  readonly from: number;
  readonly to: number;
  readonly state: SessionState;
}

/** Tells readers a stretch of entries in turns; false where it was no longer wanted. */
async function tell(
  log: ReadableLog,
  { session, from, to, state }: Stretch,
  readers: readonly EveningReader[],
  wanted: (entries: number) => boolean,
): Promise<boolean> {
  const retracted = retractedIn(log, session);
  let now = state;
  for (let entry = from; entry <= to; entry += PIECE) {
    const events = readEvents(log, session, entry, Math.min(to, entry + PIECE - 1));
    now = readThrough(now, events, retracted, readers);
    await setImmediate();
    if (events.length === 0 || !wanted(now.entries)) return false;
  }
  return true;
}

export function eveningReports(log: ReadableLog, pushes: Pushes) {
  /** The report that was worked out last, by the evening's head: going from sheet to figures and back works nothing out again. */
  let last: { readonly head: string; readonly report: Report } | null = null;
  const givenUp = new Set<number>();

  return {
    giveUp: (row: SessionRow): void => void givenUp.add(row.id),

    report: async (row: SessionRow): Promise<Good<Report> | Bad> => {
      if (last?.head === row.head) return good(last.report);
      givenUp.delete(row.id);
      const railroad = indexRailroad(readDocument(log, row.railroadHash));
      const figures = figuresReader(railroad);
      const sheet = sheetReader(railroad);
      const stretch = { session: row.id, from: 1, to: row.entries, state: initialStateOf(log, row.id) };
      const told = await tell(log, stretch, [figures, sheet], (entries) => {
        if (entries % TOLD_EVERY === 0)
          pushes.tell('evenings.progress', { id: String(row.id), entries, of: row.entries });
        return !givenUp.has(row.id);
      });
      if (!told) return GIVEN_UP;
      last = { head: row.head, report: { figures: figures.figures(), sheet: sheet.sheet() } };
      return good(last.report);
    },

    charts: async (row: SessionRow, asked: ChartRange): Promise<Good<EveningCharts> | Bad> => {
      const before = asked.from <= 0 ? 0 : entryAt(log, row.id, row.entries, asked.from);
      const end = entryAt(log, row.id, row.entries, asked.to);
      const to = Math.min(end, before + MOST_CHARTED);
      const railroad = indexRailroad(readDocument(log, row.railroadHash));
      const state = stateAt(log, row.id, before);
      const reader = chartsReader(railroad, asked.from, state);
      const stretch = { session: row.id, from: before + 1, to, state };
      if (!(await tell(log, stretch, [reader], () => true)) && to > before) return GIVEN_UP;
      const until = to < end ? stateAt(log, row.id, to).at : asked.to;
      return good(reader.charts(until));
    },
  };
}
