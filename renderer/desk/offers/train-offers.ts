/** What can be said of a train. */
import type { CutId, TrainId } from '../../../shared-model/ids.ts';
import { facingWords } from '../../../shared-model/railroad/where-words.ts';
import { authorityOf } from '../../../shared-model/session/facts/authorities.ts';
import type { TrainNow } from '../../../shared-model/session/state.ts';
import { changedEnds } from '../entry-line/change-ends.ts';
import type { LineContext } from '../entry-line/reading.ts';
import type { Option } from '../option.ts';
import { filled, type OfferGroup, offer, typed } from './offer-group.ts';
import { tagOffers } from './tag-offers.ts';

/** How a train is typed: its number, or its id. */
export const typedTrain = (id: TrainId, { name }: TrainNow): string => /\d+/.exec(name)?.[0] ?? id;

function reports(context: LineContext, train: TrainId, now: TrainNow): readonly Option[] {
  const [head] = now.trail;
  const ends = changedEnds(context, train);
  return [
    offer('stopped', { do: 'train-stopped', train }),
    ...(head === undefined ? [] : [offer('is where it is shown', { do: 'train-at', train, ...head })]),
    ...(ends === null
      ? []
      : [offer(`changes ends, ${facingWords(context.railroad, ends)}`, { do: 'train-at', train, ...ends })]),
    offer('stalled', { do: 'stalled', train }),
    now.derailed
      ? offer('rerailed', { do: 'rerailed', train })
      : offer('derailed', { do: 'derailed', train }),
    offer('lifted off', { do: 'take-off', train }),
  ];
}

function authority({ state }: LineContext, train: TrainId): readonly Option[] {
  const held = authorityOf(state, train);
  const asks = state.asks.some((ask) => ask.train === train);
  return [
    ...(held === null
      ? []
      : held.authority.kind === 'move'
        ? [
            offer('advance', { do: 'advance', train }),
            offer('annul', { do: 'annul', authority: held.id, why: 'at the desk' }),
          ]
        : []),
    ...(asks ? [offer('withdraw its ask', { do: 'withdraw', train })] : []),
  ];
}

function cars({ state }: LineContext, train: TrainId, now: TrainNow): readonly Option[] {
  const number = typedTrain(train, now);
  const cuts = Object.keys(state.cuts) as CutId[];
  const others = (Object.entries(state.trains) as [TrainId, TrainNow][]).filter(
    ([id, other]) => id !== train && other.placed && other.cab === now.cab && now.cab !== null,
  );
  return [
    typed('sets cars out', `${number} sets cut${cuts.length + 1} `),
    ...cuts.map((cut) => offer(`takes ${cut}`, { do: 'pick-up', train, cut })),
    ...others.map(([other, { name }]) => offer(`couples ${name}`, { do: 'couple', train, other })),
    typed('was recounted', `${number} is ${now.length} ${now.amps}`),
  ];
}

function cabs({ railroad, state }: LineContext, train: TrainId, now: TrainNow): readonly Option[] {
  return railroad.document.throttles
    .filter(({ id }) => id !== now.cab && state.cabs[id]?.person != null)
    .map(({ id, name }) => offer(`change to ${name}`, { do: 'change-cab', train, cab: id }));
}

/** Every report and order about a train that needs no other place; those that do are offered where the place is touched. */
export function trainOffers(context: LineContext, train: TrainId): readonly OfferGroup[] {
  const now = context.state.trains[train];
  if (now === undefined) return [];
  const tag = tagOffers(context.state, train, typedTrain(train, now));
  if (!now.placed) return [{ title: 'Touch the block where it stands', options: [] }, tag];
  return filled([
    { title: 'It', options: reports(context, train, now) },
    { title: 'Its authority', options: authority(context, train) },
    { title: 'Cars', options: cars(context, train, now) },
    { title: 'Cab', options: cabs(context, train, now) },
    tag,
  ]);
}
