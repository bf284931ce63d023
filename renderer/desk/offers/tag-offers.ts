/** Out of service and back, for anything: with the usual reasons at one touch, or another one typed. */
import { DISPATCHER } from '../../../shared-model/session/dispatcher.ts';
import type { SessionState } from '../../../shared-model/session/state.ts';
import { type OfferGroup, offer, typed } from './offer-group.ts';

const REASONS = ['does not work', 'track is being cleaned', 'hands at work'] as const;

/** @param mark how the thing is typed in the entry line */
export function tagOffers({ tags }: SessionState, thing: string, mark: string): OfferGroup {
  const standing = tags.find((tag) => tag.thing === thing);
  if (standing !== undefined)
    return {
      title: `Out of service: ${standing.why} (${standing.by})`,
      options: [offer('back in service', { do: 'untag', thing, by: DISPATCHER })],
    };
  return {
    title: 'Out of service',
    options: [
      ...REASONS.map((why) => offer(why, { do: 'tag', thing, why, by: DISPATCHER })),
      typed('another reason', `tag ${mark} `),
    ],
  };
}
