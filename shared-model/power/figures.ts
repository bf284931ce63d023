/** Figures in sentences: a unit beside each, no more digits than a meter shows. */
import type { Amps, Millimetres, Volts } from '../units.ts';

/** Volts with at most two digits after the point. */
export const voltsText = (volts: Volts): string => `${Number(volts.toFixed(2))} V`;

/** Amperes to three figures. Without any resistance in the loop no figure can be given. */
export function ampsText(amps: Amps): string {
  return Number.isFinite(amps) ? `${Number(amps.toPrecision(3))} A` : 'more than can be told';
}

/** An international foot is 304.8 mm exactly. */
const FOOT: Millimetres = 304.8;

/** A run of wire, in metres and in feet: a sentence is read by people of both. */
export const runText = (run: Millimetres): string =>
  `${Number((run / 1000).toFixed(2))} m (${Number((run / FOOT).toFixed(1))} ft)`;
