/** What a rehearsal begins with: the live evening as it stands, a saved setting, or an empty railroad. */

import { fromHere } from '../../shared-model/planning/carry-out/from-here.ts';
import type { TrainsUnderWay } from '../../shared-model/planning/carry-out/keep-order.ts';
import { situationOfSetting } from '../../shared-model/planning/rehearsal/fork-situation.ts';
import type { SituationJson } from '../../shared-model/planning/situation.ts';
import type { Railroad } from '../../shared-model/railroad/railroad.ts';
import type { CarriedOver } from '../../shared-model/session/initial.ts';
import type { FollowedEvening } from '../console/followed-evening.ts';
import { withKnobsTurned } from './knobs-in-the-way.ts';
import { named } from './words.ts';

export interface Known extends Pick<CarriedOver, 'tags' | 'checks'> {
  readonly people: Readonly<Record<string, string | null>>;
}

export interface Origin {
  /** `live`, `empty`, `setting ID`; `kept` or `left` where it goes on with one that there was. */
  readonly key: string;
  readonly says: string;
  readonly railroad: Railroad;
  readonly json: SituationJson;
  /** What is known tonight beside the trains and knobs. */
  readonly known: Known;
  /** What could not be taken over, in sentences. */
  readonly left: readonly string[];
  /** Trains that are on their way by an order: it begins with them where that takes them. */
  readonly underWay: TrainsUnderWay;
}

const NOTHING_KNOWN: Known = { tags: [], checks: [], people: {} };

function knownIn(evening: FollowedEvening | null): Known {
  if (evening === null) return NOTHING_KNOWN;
  const { tags, checks, cabs } = evening.state;
  const people = Object.fromEntries(Object.entries(cabs).map(([id, cab]) => [id, cab.person]));
  return { tags, checks: checks.map((check) => ({ ...check, at: Math.min(0, check.at) })), people };
}

/**
 * The beginnings there are.
 *
 * @param evening the evening that goes on; null when there is none
 * @param railroad the railroad to rehearse on where there is no evening
 */
export function originsFor(
  evening: FollowedEvening | null,
  railroad: Railroad,
): readonly { readonly key: string; readonly says: string }[] {
  return [
    ...(evening === null ? [] : [{ key: 'live', says: 'the live evening, now' }]),
    ...railroad.document.settings.map(({ id, name }) => ({
      key: `setting ${id}`,
      says: `the setting “${name}”`,
    })),
    { key: 'empty', says: 'an empty railroad' },
  ];
}

/** What it is begun anew from when it is discarded: as it began, or else the first there is. */
export const againFrom = (
  { key }: Pick<Origin, 'key'>,
  beginnings: readonly { readonly key: string }[],
): string => (beginnings.some((one) => one.key === key) ? key : (beginnings[0]?.key ?? 'empty'));

export function originOf(key: string, evening: FollowedEvening | null, railroad: Railroad): Origin {
  const known = knownIn(evening);
  const says = originsFor(evening, railroad).find((one) => one.key === key)?.says ?? 'an empty railroad';
  if (key === 'live' && evening !== null) {
    return { key, says, known, ...fromHere(evening.railroad, evening.state, [], 0) };
  }
  const setting = railroad.document.settings.find(({ id }) => key === `setting ${id}`);
  const json: SituationJson = setting === undefined ? { trains: [] } : situationOfSetting(setting);
  return { key, says, railroad, json, known, left: [], underWay: new Map() };
}

/**
 * The live evening as it stands now, to be planned again. A knob that is off under a train that is to go is turned for it, as in the plan before.
 *
 * @param wishes where the trains were to end up in the plan before
 * @param since seconds since the beginning of that plan
 */
export function originFromHere(
  evening: FollowedEvening,
  wishes: SituationJson['trains'],
  since: number,
): Origin {
  const here = fromHere(evening.railroad, evening.state, wishes, since);
  const { json, turned } = withKnobsTurned(here.railroad, here.json);
  return {
    key: 'live',
    says: 'the live evening, as it stood when it was planned again',
    known: knownIn(evening),
    ...here,
    json,
    left: [
      ...here.left,
      ...turned.map(
        (knob) =>
          `how ${named(here.railroad, knob)} stands: in this rehearsal it is turned to the train on it.`,
      ),
    ],
  };
}
