/** What the charts of an evening are drawn from: spans and points in seconds of the session, nothing of how they look. */
import type { Millimetres, Seconds } from '../../units.ts';
import type { Charged } from '../charged.ts';

/** The part of the evening that is shown. */
export interface ChartRange {
  readonly from: Seconds;
  readonly to: Seconds;
}

/** A block that was not open, from when to when, in one state and one cab's. */
export interface OwnedSpan {
  readonly block: string;
  readonly from: Seconds;
  readonly to: Seconds;
  readonly state: 'pledged' | 'lined' | 'occupied' | 'disputed';
  readonly cab: string | null;
  /** A train or a cut. */
  readonly train: string | null;
}

export interface WaitSpan extends Charged {
  readonly train: string;
  readonly cab: string | null;
  readonly person: string | null;
  readonly from: Seconds;
  readonly to: Seconds;
}

export interface TrainPoint {
  readonly at: Seconds;
  /** From the first place, by the shortest track. */
  readonly distanceMm: Millimetres;
}

/** A train's way as far as it is known without a break; between two reports nothing was seen of it. */
export interface TrainLine {
  readonly train: string;
  readonly cab: string | null;
  readonly points: readonly TrainPoint[];
}

/** A refusal or an alarm. */
export interface ChartMark {
  readonly entry: number;
  readonly at: Seconds;
  readonly outcome: 'refused' | 'alarm';
  readonly codes: readonly string[];
}

export interface EveningCharts {
  readonly range: ChartRange;
  readonly owned: readonly OwnedSpan[];
  readonly waits: readonly WaitSpan[];
  readonly lines: readonly TrainLine[];
  readonly marks: readonly ChartMark[];
  /** When each throw was done. */
  readonly throws: readonly Seconds[];
}
