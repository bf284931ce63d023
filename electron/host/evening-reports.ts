/** Sheet, figures and charts of an evening that was, worked out in short turns: the evening that is going on does not wait for them. */
import type { ChartRange, EveningCharts } from '../../shared-model/logbook/charts/chart-data.ts';
import { chartsReader } from '../../shared-model/logbook/charts/evening-charts.ts';
import { figuresReader } from '../../shared-model/logbook/figures.ts';
import { type EveningReader, readThrough } from '../../shared-model/logbook/pass.ts';
import { sheetReader } from '../../shared-model/logbook/train-sheet.ts';
import { indexRailroad } from '../../shared-model/railroad/railroad.ts';
import type { SessionState } from '../../shared-model/session/state.ts';
import type { ReplyOf } from '../../shared-model/wire/contract.ts';
import { type Bad, bad, type Good, good } from './answers.ts';
import { GIVEN_UP, whileWanted } from './by-turns.ts';
import type { EveningPasses } from './evening-passes.ts';
import { readDocument } from './log/documents.ts';
import { readEvents } from './log/events.ts';
import type { ReadableLog } from './log/log.ts';
import { entryAt, retractedIn } from './log/moments.ts';
import type { SessionRow } from './log/sessions.ts';
import { stateAt } from './log/state-at.ts';
import type { Pushes } from './pushes.ts';

/** Entries in one turn: some milliseconds' work. */
const PIECE = 200;
/** So many entries gone through are worth telling. */
const TOLD_EVERY = 10_000;
/** Most entries in the charts of one answer: more would be too much to draw. */
const MOST_CHARTED = 20_000;

type Report = ReplyOf<'evenings.report'>;

/** A report that is being worked out, and how many screens want it. */
interface Asked {
  wanted: number;
  readonly made: Promise<Good<Report> | Bad>;
}

/** Tells a reader the entries of a part of an evening. */
function* throughPart(
  log: ReadableLog,
  session: number,
  { from, to, state }: { readonly from: number; readonly to: number; readonly state: SessionState },
  reader: EveningReader,
): Generator<number, void> {
  const retracted = retractedIn(log, session);
  let now = state;
  for (let entry = from; entry <= to; entry += PIECE) {
    now = readThrough(now, readEvents(log, session, entry, Math.min(to, entry + PIECE - 1)), retracted, [
      reader,
    ]);
    yield now.entries;
  }
}

/** An evening that is not what was written is not shown as if it were. */
export const unsound = ({ id }: SessionRow, fault: string): Bad =>
  bad('fault', `Evening ${id} in the log is not what was written: ${fault}.`);

export function eveningReports(log: ReadableLog, passes: EveningPasses, pushes: Pushes) {
  /** The report that was worked out last, by the evening's head: going from sheet to figures and back works nothing out again. */
  let last: { readonly head: string; readonly report: Report } | null = null;
  /** By the evening's head. */
  const going = new Map<string, Asked>();

  const workOut = async (row: SessionRow, isWanted: () => boolean): Promise<Good<Report> | Bad> => {
    const railroad = indexRailroad(readDocument(log, row.railroadHash));
    const figures = figuresReader(railroad);
    const sheet = sheetReader(railroad);
    const passed = await passes.tell(row, [figures, sheet], (entries) => {
      if (entries % TOLD_EVERY === 0)
        pushes.tell('evenings.progress', { id: String(row.id), entries, of: row.entries });
      return isWanted();
    });
    if (passed === GIVEN_UP) return bad('refused', 'This was given up.');
    if (passed !== null) return unsound(row, passed);
    last = { head: row.head, report: { figures: figures.figures(), sheet: sheet.sheet() } };
    return good(last.report);
  };

  return {
    /** One screen wants the report no longer; it is given up when none does. */
    giveUp: ({ head }: SessionRow): void => {
      const known = going.get(head);
      if (known !== undefined) known.wanted -= 1;
    },

    report: (row: SessionRow): Promise<Good<Report> | Bad> => {
      if (last?.head === row.head) return Promise.resolve(good(last.report));
      const known = going.get(row.head);
      if (known !== undefined && known.wanted > 0) {
        known.wanted += 1;
        return known.made;
      }
      const made: Promise<Good<Report> | Bad> = workOut(row, () => asked.wanted > 0).finally(() => {
        if (going.get(row.head) === asked) going.delete(row.head);
      });
      const asked: Asked = { wanted: 1, made };
      going.set(row.head, asked);
      return made;
    },

    charts: async (row: SessionRow, asked: ChartRange): Promise<Good<EveningCharts> | Bad> => {
      const before = asked.from <= 0 ? 0 : entryAt(log, row.id, row.entries, asked.from);
      const end = entryAt(log, row.id, row.entries, asked.to);
      const to = Math.min(end, before + MOST_CHARTED);
      const railroad = indexRailroad(readDocument(log, row.railroadHash));
      const state = stateAt(log, row.id, before);
      const reader = chartsReader(railroad, asked.from, state);
      await whileWanted(throughPart(log, row.id, { from: before + 1, to, state }, reader), () => true);
      const until = to < end ? stateAt(log, row.id, to).at : asked.to;
      return good(reader.charts(until));
    },
  };
}
