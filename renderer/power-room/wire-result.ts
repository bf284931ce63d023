/** What the wire calculator answers to its figures. */
import { type BreakerAnswer, breakerAt, shortAmps } from '../../shared-model/power/breaker.ts';
import { GAUGE } from '../../shared-model/power/ranges.ts';
import { dropVolts, type WirePiece, wireOhms } from '../../shared-model/power/wire.ts';
import {
  judgeDrop,
  judgeGauge,
  judgeTrip,
  type WireJudgement,
} from '../../shared-model/power/wire-findings.ts';
import type { WireFigures } from './wire-draft.ts';

export interface WireResult {
  /** Out and back. */
  readonly ohms: number;
  readonly drop: number;
  readonly dropPercent: number;
  readonly short: number;
  readonly trip: BreakerAnswer | null;
  readonly judgements: readonly WireJudgement[];
}

/** The longest piece: the one that is worth another gauge. */
export function mainPiece({ pieces }: WireFigures): WirePiece {
  const [longest] = [...pieces].sort((one, other) => other.run - one.run);
  if (longest === undefined) throw new Error('a wire has at least one piece');
  return longest;
}

/** The same wire with another longest piece. */
function withMain(figures: WireFigures, piece: WirePiece): WireFigures {
  const main = mainPiece(figures);
  return { ...figures, pieces: figures.pieces.map((each) => (each === main ? piece : each)) };
}

/** Out by the pieces; back by the bus, or by as much wire again. */
function circuitOf({ pieces, bus, celsius }: WireFigures) {
  const feederOhms = wireOhms(pieces, celsius);
  return { feederOhms, returnOhms: bus === null ? feederOhms : wireOhms(bus, celsius) };
}

/** Volts lost out and back, with another gauge and run of the longest piece. */
export function dropWith(figures: WireFigures, piece: WirePiece): number {
  return dropVolts(circuitOf(withMain(figures, piece)), figures.amps, figures.others);
}

/**
 * The longest run, one way, of the longest piece that loses no more than a share of the volts, the rest staying as it is.
 *
 * @returns millimetres; 0 where the rest loses more than that already
 */
export function longestRun(figures: WireFigures, awg: number, percent: number): number {
  // A drop grows evenly with the run: two of them tell the rest.
  const none = dropWith(figures, { awg, run: 0 });
  const perMillimetre = (dropWith(figures, { awg, run: 1000 }) - none) / 1000;
  return Math.max(0, ((figures.volts * percent) / 100 - none) / perMillimetre);
}

export function wireResult(figures: WireFigures): WireResult {
  const { pieces, bus, volts, amps, others, impedanceOhms, breakerAmps } = figures;
  const circuit = circuitOf(figures);
  const ohms = circuit.feederOhms + circuit.returnOhms;
  const drop = dropVolts(circuit, amps, others);
  const short = shortAmps(volts, ohms + impedanceOhms);
  const breaker = breakerAmps ?? undefined;
  const judgements = [
    ...pieces.map((piece, index) => judgeGauge(piece, breaker, 'track', index === pieces.length - 1)),
    bus === null ? null : judgeGauge(bus, breaker, 'track', false),
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
