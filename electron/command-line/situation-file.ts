/** Reads the railroad and the situation that `safe` and `plan` are asked about. */
import { parseSituation, type Situation } from '../../shared-model/planning/situation.ts';
import type { Railroad } from '../../shared-model/railroad/railroad.ts';
import { inputError } from './answer.ts';
import { type Loaded, readJson } from './files.ts';
import { readRunnableRailroad } from './runnable-railroad.ts';

export interface SituationOnRailroad {
  readonly railroad: Railroad;
  readonly situation: Situation;
}

/** @returns both, whole; else the answer that says which file is wrong, where, and what was expected */
export function readSituation(railroadFile: string, situationFile: string): Loaded<SituationOnRailroad> {
  const read = readRunnableRailroad(railroadFile);
  if (!read.ok) return read;
  const value = readJson(situationFile);
  if (!value.ok) return value;
  const railroad = read.value;
  const situation = parseSituation(railroad, value.value);
  if (situation.ok) return { ok: true, value: { railroad, situation: situation.value } };
  const { path, says } = situation.malformed;
  return { ok: false, answer: inputError(`${situationFile}: ${path}: ${says}`) };
}
