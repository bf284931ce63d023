/** The time-distance chart of a plan as data: blocks as rows, stays as bars, heads as lines, hands and voice as lanes, faults where they are. */
import type { BlockId, TrainId } from '../../ids.ts';
import type { Railroad } from '../../railroad/railroad.ts';
import type { Millimetres, Seconds } from '../../units.ts';
import type { PlanFault } from '../checker/check-plan.ts';
import type { PlanMove, PlanThrow } from '../plan-answer.ts';
import { comesTo, goesOnFrom, type HeadLine } from '../timing/head-line.ts';
import type { BlockTime, PlanTiming, Work } from '../timing.ts';
import { rowLayout } from './row-layout.ts';

/** A stay as it is drawn: every time is a number, what never began begins at 0, what never ends goes to the chart's end. */
export interface ChartBar {
  readonly train: TrainId;
  readonly block: BlockId;
  readonly row: number;
  /** First throw for it, head in, tail out, given back. */
  readonly from: Seconds;
  readonly headIn: Seconds;
  readonly tailOut: Seconds;
  readonly till: Seconds;
  /** The train stays at the end. */
  readonly stays: boolean;
}

/** `row` is a row's place and how far through it the head is. */
export interface ChartPoint {
  readonly at: Seconds;
  readonly row: number;
}

/** A head's way over the rows: a piece for each stay, since the next block may lie anywhere among the rows. */
export interface ChartLine {
  readonly train: TrainId;
  readonly pieces: readonly (readonly ChartPoint[])[];
}

/** From the end of one piece to the beginning of the next one, where they lie apart: a way that the chart has no distance for. */
export interface ChartJump {
  readonly train: TrainId;
  readonly from: ChartPoint;
  readonly to: ChartPoint;
}

export type ChartLane = 'hands' | 'voice';

/** A fault of the checker's, and where on the chart it is marked. */
export interface ChartConflict {
  readonly fault: PlanFault;
  readonly at: Seconds | null;
  readonly rows: readonly number[];
  readonly lanes: readonly ChartLane[];
}

/** Faults of one moment in one row are one mark. */
export interface ConflictMark {
  readonly key: string;
  readonly at: Seconds;
  /** How long the blocking times of two trains overlap there from then on; `at` where they do not. */
  readonly till: Seconds;
  readonly row: number;
  readonly faults: readonly PlanFault[];
}

/** Where a move can be taken hold of: its start, on the line of its train. */
export interface ChartStart {
  /** The place of the move in the plan's list. */
  readonly move: number;
  readonly train: TrainId;
  readonly at: Seconds;
  readonly row: number;
}

export interface Chart {
  readonly rows: readonly BlockId[];
  /** How long the track of each row is that the plan runs over or stands on. */
  readonly lengthsMm: readonly Millimetres[];
  readonly bars: readonly ChartBar[];
  readonly lines: readonly ChartLine[];
  readonly hands: readonly Work[];
  readonly voice: readonly Work[];
  readonly conflicts: readonly ChartConflict[];
  readonly starts: readonly ChartStart[];
  /** Seconds of the chart. */
  readonly end: Seconds;
  /** Throws that begin in each minute. */
  readonly handsLoad: readonly number[];
}

const MINUTE: Seconds = 60;
/** After the last thing that happens, so that what stays at the end is seen to stay. */
const TAIL: Seconds = 6;

function barOf(stay: BlockTime, row: number, end: Seconds): ChartBar {
  const headIn = stay.headIn ?? 0;
  return {
    train: stay.train,
    block: stay.block,
    row,
    from: Math.max(0, stay.from ?? 0),
    headIn,
    tailOut: stay.tailOut ?? end,
    till: Math.min(end, stay.till ?? end),
    stays: stay.tailOut === null,
  };
}

/** The line of a head through its stays, each in its row from where it begins to where it ends there. */
function lineOf(
  line: HeadLine,
  stays: readonly BlockTime[],
  rowOf: ReadonlyMap<BlockId, number>,
  through: ReadonlyMap<BlockTime, readonly [number, number]>,
  end: Seconds,
): ChartLine {
  const pieces = stays.map((stay, index): ChartPoint[] => {
    const row = rowOf.get(stay.block) ?? 0;
    const [from, till] = through.get(stay) ?? [0, 1];
    const rowAt = (mm: number): number => {
      const share = Math.min(1, Math.max(0, (mm - stay.fromMm) / Math.max(1, stay.tillMm - stay.fromMm)));
      return row + from + (till - from) * share;
    };
    const inside = line.points.filter(({ mm }) => mm >= stay.fromMm && mm <= stay.tillMm);
    const out = comesTo(line, stay.tillMm);
    const goesOn = index + 1 < stays.length ? goesOnFrom(line, stay.tillMm) : end;
    return [
      ...(stay.headIn === null ? [] : [{ at: stay.headIn, row: rowAt(stay.fromMm) }]),
      ...inside.filter(({ at }) => at >= (stay.headIn ?? 0)).map(({ at, mm }) => ({ at, row: rowAt(mm) })),
      ...(out === null ? [] : [{ at: out, row: rowAt(stay.tillMm) }]),
      ...(goesOn === null ? [] : [{ at: goesOn, row: rowAt(stay.tillMm) }]),
    ].sort((one, other) => one.at - other.at);
  });
  return { train: line.train, pieces: pieces.filter((piece) => piece.length > 0) };
}

/** Rows that meet at a gap do so to this. */
const HAIR_ROWS = 1e-6;

/** Where the lines of a chart go on elsewhere than they ended. */
export function chartJumps({ lines }: Chart): readonly ChartJump[] {
  return lines.flatMap(({ train, pieces }) =>
    pieces.slice(1).flatMap((piece, index): readonly ChartJump[] => {
      const [from, to] = [pieces[index]?.at(-1), piece[0]];
      return from === undefined || to === undefined || Math.abs(from.row - to.row) < HAIR_ROWS
        ? []
        : [{ train, from, to }];
    }),
  );
}

/** Where a fault is marked: the rows of its blocks; the hands' lane for a knob; the voice's for what is about a train alone at its start. */
function conflictOf(
  fault: PlanFault,
  rowOf: ReadonlyMap<BlockId, number>,
  knobs: ReadonlySet<string>,
  talks: boolean,
): ChartConflict {
  const rows = fault.about.flatMap((id) => rowOf.get(id as BlockId) ?? []);
  const isKnob = fault.about.some((id) => knobs.has(id));
  const lanes: ChartLane[] = isKnob ? ['hands'] : rows.length === 0 && talks ? ['voice'] : [];
  return { fault, at: fault.at, rows, lanes };
}

function startsOf(
  moves: readonly PlanMove[],
  { lost }: PlanTiming,
  lines: readonly ChartLine[],
): readonly ChartStart[] {
  return moves.map(({ train, start }, move) => {
    const departs = start + (lost.find((one) => one.move === move)?.seconds ?? 0);
    const points = (lines.find((line) => line.train === train)?.pieces ?? []).flat();
    // Two pieces meet in the moment of a start at a gap: the one that it starts from comes first.
    const from = points.find(({ at }) => at >= departs - 1e-3) ?? points.at(-1);
    return { move, train, at: start, row: from?.row ?? 0 };
  });
}

/** Until when two trains have a row at once, from a moment on; that moment where they do not. */
function overlapTill(bars: readonly ChartBar[], row: number, at: Seconds): Seconds {
  const there = bars.filter((bar) => bar.row === row && bar.headIn <= at + 1e-3 && bar.till > at);
  return there.length < 2 ? at : Math.min(...there.map(({ till }) => till));
}

/** The marks of a chart's conflicts in its rows; what is about no moment is marked at the beginning. */
export function conflictMarks({ conflicts, bars }: Chart): readonly ConflictMark[] {
  const marks = new Map<string, ConflictMark>();
  for (const { fault, at, rows } of conflicts)
    for (const row of rows) {
      const key = `${at ?? 0} ${row}`;
      const faults = [...(marks.get(key)?.faults ?? []), fault];
      marks.set(key, { key, at: at ?? 0, till: overlapTill(bars, row, at ?? 0), row, faults });
    }
  return [...marks.values()];
}

/**
 * The chart of a plan.
 *
 * @param timing the times of that plan
 * @param faults what the independent checker finds in it: every one of them is a conflict of the chart, and nothing else is
 */
export function chartOf(
  railroad: Railroad,
  plan: { readonly moves: readonly PlanMove[]; readonly throws: readonly PlanThrow[] },
  timing: PlanTiming,
  faults: readonly PlanFault[],
): Chart {
  const end = timing.end + TAIL;
  const ways = timing.lines.map(({ train }) => timing.blocks.filter((stay) => stay.train === train));
  const { rows, lengthsMm, through } = rowLayout(railroad, ways);
  const rowOf = new Map(rows.map((block, row) => [block, row]));
  const knobs = new Set<string>(plan.throws.map(({ id }) => id));
  const lines = timing.lines.map((line, index) => lineOf(line, ways[index] ?? [], rowOf, through, end));
  const minutes = Math.max(1, Math.ceil(timing.end / MINUTE));
  return {
    rows,
    lengthsMm,
    bars: timing.blocks.map((stay) => barOf(stay, rowOf.get(stay.block) ?? 0, end)),
    lines,
    starts: startsOf(plan.moves, timing, lines),
    hands: timing.hands,
    voice: timing.voice,
    conflicts: faults.map((fault) => conflictOf(fault, rowOf, knobs, timing.voice.length > 0)),
    end,
    handsLoad: Array.from(
      { length: minutes },
      (_, minute) =>
        timing.hands.filter(({ at }) => at >= minute * MINUTE && at < (minute + 1) * MINUTE).length,
    ),
  };
}
