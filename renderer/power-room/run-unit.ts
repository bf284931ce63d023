/** Runs of wire as the user prefers them: metres or feet. */

import type { NumberRange } from '../../shared-model/number-text.ts';
import { RUN } from '../../shared-model/power/ranges.ts';
import type { UserSettings } from '../../shared-model/wire/contract.ts';

export interface RunUnit {
  readonly unit: string;
  readonly name: string;
  readonly mm: number;
  readonly range: NumberRange;
}

/** An international foot is 304.8 mm exactly. */
const FOOT_MM = 304.8;

function runUnitOf(unit: string, name: string, mm: number): RunUnit {
  return { unit, name, mm, range: { ...RUN, most: Math.floor(RUN.most / mm), unit: name } };
}

export const RUN_UNITS: Readonly<Record<UserSettings['lengths'], RunUnit>> = {
  metric: runUnitOf('m', 'metres', 1000),
  imperial: runUnitOf('ft', 'feet', FOOT_MM),
};

/** A run in the unit, to a tenth. */
export const runText = (mm: number, { unit, mm: inUnit }: RunUnit): string =>
  `${Number((mm / inUnit).toFixed(1))} ${unit}`;
