/** What can be said of a cab and of who has it, and of a supply. */
import type { SupplyId, ThrottleId } from '../../../shared-model/ids.ts';
import type { LineContext } from '../entry-line/reading.ts';
import { filled, type OfferGroup, offer, typed } from './offer-group.ts';
import { tagOffers } from './tag-offers.ts';

/** People who have another cab tonight: a relief is one touch. */
function people({ state }: LineContext, cab: ThrottleId): readonly string[] {
  const names = Object.values(state.cabs).flatMap(({ person }) => person ?? []);
  return [...new Set(names)].filter((name) => name !== state.cabs[cab]?.person);
}

export function cabOffers(context: LineContext, cab: ThrottleId): readonly OfferGroup[] {
  const { railroad, state } = context;
  const person = state.cabs[cab]?.person ?? null;
  const number = railroad.document.throttles.findIndex(({ id }) => id === cab) + 1;
  return filled([
    {
      title: 'Its handle',
      options:
        person === null
          ? []
          : [
              offer('calls', { do: 'call', cab }),
              offer('is at zero', { do: 'handle-at-zero', cab }),
              offer('call stop', { do: 'stop-called', cab }),
            ],
    },
    {
      title: person === null ? 'Nobody has it' : `${person} has it`,
      options: [
        ...people(context, cab).map((name) =>
          offer(`${name} takes it`, { do: 'assign-cab', cab, person: name }),
        ),
        offer(`Operator ${number} takes it`, { do: 'assign-cab', cab, person: `Operator ${number}` }),
        typed('somebody else', `c${cab} `),
        ...(person === null ? [] : [offer('nobody', { do: 'assign-cab', cab, person: null })]),
      ],
    },
    tagOffers(state, cab, `c${cab}`),
  ]);
}

export function supplyOffers({ railroad, state }: LineContext, supply: SupplyId): readonly OfferGroup[] {
  const tripped = state.tripped.includes(supply);
  const others = railroad.document.supplies.filter(({ id }) => id !== supply);
  return filled([
    {
      title: 'Its breaker',
      options: tripped
        ? [offer('is reset', { do: 'breaker-reset', supply })]
        : [offer('tripped', { do: 'breaker-tripped', supply })],
    },
    {
      title: 'Its phase',
      options: [
        offer('was replugged', { do: 'supply-replugged', supply }),
        ...others.map(({ id, name }) => typed(`measured against ${name}`, `phase ${supply} ${id} `)),
      ],
    },
    tagOffers(state, supply, supply),
  ]);
}
