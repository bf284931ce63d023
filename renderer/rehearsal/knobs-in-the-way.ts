/** Knobs that stand otherwise than a train on them needs: which they are, and the rehearsal with them turned. */
import type { SelectorId, ToggleId } from '../../shared-model/ids.ts';
import type { Malformed } from '../../shared-model/malformed.ts';
import { parseSituation, type SituationJson } from '../../shared-model/planning/situation.ts';
import { feedOf } from '../../shared-model/railroad/feed.ts';
import type { Railroad } from '../../shared-model/railroad/railroad.ts';
import { blocksUnder } from './room.ts';

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

/** The situation with nothing feeding a parked train: the toggle in front of it off, or else its selector. */
function withDead(railroad: Railroad, json: SituationJson, train: SituationJson['trains'][number]) {
  const selectors: Record<SelectorId, 'off'> = {};
  const toggles: Record<ToggleId, boolean> = {};
  for (const block of blocksUnder(railroad, json, train) ?? []) {
    const feed = feedOf(railroad, block);
    const toggle = feed?.toggles.at(-1);
    if (toggle !== undefined) toggles[toggle] = false;
    else if (feed !== null && feed.selector !== null) selectors[feed.selector] = 'off';
  }
  return {
    ...json,
    selectors: { ...json.selectors, ...selectors },
    toggles: { ...json.toggles, ...toggles },
  };
}

/** Whether nothing feeds a train in a rehearsal: the toggle in front of a block under it is off, or else its selector. */
export function standsDead(
  railroad: Railroad,
  { selectors, toggles, turnouts }: SituationJson,
  train: SituationJson['trains'][number],
): boolean {
  const blocks = blocksUnder(railroad, { turnouts }, train) ?? [];
  return blocks.every((block) => {
    const feed = feedOf(railroad, block);
    if (feed?.toggles.some((toggle) => toggles?.[toggle] === false)) return true;
    return feed !== null && feed.selector !== null && selectors?.[feed.selector] === 'off';
  });
}

/** The knobs that stand otherwise in a rehearsal than in what it began with. */
export function knobsTurned(began: SituationJson, now: SituationJson): readonly string[] {
  const turned = <Value>(
    before: Readonly<Record<string, Value>> = {},
    after: Readonly<Record<string, Value>> = {},
  ) => Object.keys(before).filter((id) => before[id] !== after[id]);
  return [...turned(began.selectors, now.selectors), ...turned(began.toggles, now.toggles)];
}

/**
 * Sets the knobs as somebody would who puts these trains there: what a train stands on is turned to its cab, and a train that only
 * stands while its cab runs another one stands dead.
 *
 * @returns the situation with knobs that go with its trains; the one given where no knob helps
 */
export function withKnobsFor(railroad: Railroad, json: SituationJson): SituationJson {
  const turned = withKnobsTurned(railroad, json).json;
  const parsed = parseSituation(railroad, turned);
  if (parsed.ok || !parsed.malformed.path.endsWith('.cab')) return turned;
  const cab = turned.trains[placeOf(parsed.malformed).row ?? -1]?.cab;
  const ofCab = turned.trains.filter((train) => train.cab === cab);
  const runs = ofCab.find(({ to }) => to !== undefined) ?? ofCab[0];
  const dead = ofCab
    .filter((train) => train !== runs && train.to === undefined)
    .reduce<SituationJson>((json, train) => withDead(railroad, json, train), turned);
  return parseSituation(railroad, dead).ok ? dead : turned;
}
