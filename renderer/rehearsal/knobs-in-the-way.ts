/** Knobs that stand otherwise than a train on them needs: which they are, and the rehearsal with them turned. */
import type { Malformed } from '../../shared-model/malformed.ts';
import { parseSituation, type SituationJson } from '../../shared-model/planning/situation.ts';
import type { Railroad } from '../../shared-model/railroad/railroad.ts';

/** What a sentence of the parser is about: a row, a knob, or all of it. */
export function placeOf({ path }: Malformed): { readonly row: number | null; readonly knob: string | null } {
  const row = /^\$\.trains\[(\d+)\]/.exec(path)?.[1];
  const knob = /^\$\.(?:selectors|toggles)\.?\[?"?([\w-]+)/.exec(path)?.[1];
  return { row: row === undefined ? null : Number(row), knob: knob ?? null };
}

/** The way out where a knob contradicts the train above it: the knob is left to the rehearsal, which turns it to the train's cab. */
export function withoutKnob(json: SituationJson, knob: string): SituationJson {
  const rest = <Value>(record: Readonly<Record<string, Value>> | undefined) =>
    Object.fromEntries(Object.entries(record ?? {}).filter(([id]) => id !== knob));
  return { ...json, selectors: rest(json.selectors), toggles: rest(json.toggles) };
}

/**
 * Turns in the rehearsal what stands against its trains.
 *
 * @returns the situation, and the knobs that were turned
 */
export function withKnobsTurned(
  railroad: Railroad,
  json: SituationJson,
): { readonly json: SituationJson; readonly turned: readonly string[] } {
  const parsed = parseSituation(railroad, json);
  const knob = parsed.ok ? null : placeOf(parsed.malformed).knob;
  if (knob === null) return { json, turned: [] };
  const rest = withoutKnob(json, knob);
  // One that is not named any more cannot be in the way again: this comes to an end.
  if (JSON.stringify(rest) === JSON.stringify(json)) return { json, turned: [] };
  const more = withKnobsTurned(railroad, rest);
  return { json: more.json, turned: [knob, ...more.turned] };
}
