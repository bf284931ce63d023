/** The wire calculator as it is filled in, and the answer that follows. */
import { type BreakerAnswer, breakerAt, shortAmps } from '../../shared-model/power/breaker.ts';
import { CURRENT, GAUGE, VOLTAGE, WARMTH } from '../../shared-model/power/ranges.ts';
import { dropVolts, wireOhms } from '../../shared-model/power/wire.ts';
import {
  judgeDrop,
  judgeGauge,
  judgeTrip,
  type WireJudgement,
} from '../../shared-model/power/wire-findings.ts';
import { figureIn } from './figure-box.tsx';
import type { RunUnit } from './run-unit.ts';

export const FIRST_WIRE = {
  awg: '14',
  run: '25',
  amps: '3',
  volts: '18',
  breaker: '',
  impedance: '',
  others: '',
  celsius: '20',
};
export type WireDraft = typeof FIRST_WIRE;

/** A supply's own impedance, and what other trains send through the same return, may be nothing. */
export const IMPEDANCE = { least: 0, most: 100, unit: 'ohm' } as const;
export const OTHERS = { least: 0, most: 1000, unit: 'amperes' } as const;

/** The figures of a draft; those that may be left out are null when they are. */
export interface WireFigures {
  readonly awg: number;
  readonly runMm: number;
  readonly amps: number;
  readonly volts: number;
  readonly celsius: number;
  readonly others: number;
  readonly impedanceOhms: number;
  readonly breakerAmps: number | null;
}

/** The figures, once all that are needed are there and none is wrong. */
export function wireFigures(draft: WireDraft, unit: RunUnit): WireFigures | null {
  const needed = [
    figureIn(draft.awg, GAUGE),
    figureIn(draft.run, unit.range),
    figureIn(draft.amps, CURRENT),
    figureIn(draft.volts, VOLTAGE),
    figureIn(draft.celsius, WARMTH),
  ] as const;
  const [awg, run, amps, volts, celsius] = needed;
  if (awg === null || run === null || amps === null || volts === null || celsius === null) return null;
  const others = draft.others.trim() === '' ? 0 : figureIn(draft.others, OTHERS);
  const impedanceOhms = draft.impedance.trim() === '' ? 0 : figureIn(draft.impedance, IMPEDANCE);
  const breakerAmps = draft.breaker.trim() === '' ? null : figureIn(draft.breaker, CURRENT);
  if (others === null || impedanceOhms === null) return null;
  if (breakerAmps === null && draft.breaker.trim() !== '') return null;
  return { awg, runMm: run * unit.mm, amps, volts, celsius, others, impedanceOhms, breakerAmps };
}

/** Volts lost out and back in one gauge at a run. */
export function dropAt({ amps, others, celsius }: WireFigures, awg: number, runMm: number): number {
  const oneWay = wireOhms({ awg, run: runMm }, celsius);
  return dropVolts({ feederOhms: oneWay, returnOhms: oneWay }, amps, others);
}

/** The longest run, one way, that loses no more than a share of the volts. */
export function longestRun(figures: WireFigures, awg: number, percent: number): number {
  return ((figures.volts * percent) / 100 / dropAt(figures, awg, 1000)) * 1000;
}

export interface WireResult {
  readonly ohms: number;
  readonly drop: number;
  readonly dropPercent: number;
  readonly short: number;
  readonly trip: BreakerAnswer | null;
  readonly judgements: readonly WireJudgement[];
}

export function wireResult(figures: WireFigures): WireResult {
  const { awg, runMm, volts, amps, celsius, impedanceOhms, breakerAmps } = figures;
  const ohms = 2 * wireOhms({ awg, run: runMm }, celsius);
  const drop = dropAt(figures, awg, runMm);
  const short = shortAmps(volts, ohms + impedanceOhms);
  const judgements = [
    judgeGauge({ awg, run: runMm }, breakerAmps ?? undefined, 'track', true),
    judgeDrop(drop, volts, amps),
    breakerAmps === null ? null : judgeTrip(short, breakerAmps),
  ];
  return {
    ohms,
    drop,
    dropPercent: (drop / volts) * 100,
    short,
    trip: breakerAmps === null ? null : breakerAt(short, breakerAmps),
    judgements: judgements.filter((judgement) => judgement !== null),
  };
}

/** The gauge itself and its even neighbours, heaviest first: even gauges are those that are sold. */
export function neighbours(awg: number): readonly number[] {
  const even = [-4, -2, 0, 2, 4].map((step) => awg + step);
  return even.filter((gauge) => gauge >= GAUGE.least && gauge <= GAUGE.most);
}
