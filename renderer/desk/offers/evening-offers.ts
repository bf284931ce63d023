/** What can be said of the evening as a whole: asks, breaks, the clock, settings, guests, tags, notes. */

import type { TrainId } from '../../../shared-model/ids.ts';
import { DISPATCHER } from '../../../shared-model/session/dispatcher.ts';
import type { SessionInput } from '../../../shared-model/session/input.ts';
import { railroadMinutes } from '../../../shared-model/session/orders/desk-orders.ts';
import { spokenDestination } from '../../../shared-model/session/say.ts';
import type { TrainNow } from '../../../shared-model/session/state.ts';
import { asShown } from '../as-shown.ts';
import type { LineContext } from '../entry-line/reading.ts';
import type { Option } from '../option.ts';
import { filled, type OfferGroup, offer, typed } from './offer-group.ts';

function asks({ railroad, state }: LineContext): readonly Option[] {
  return state.asks.flatMap((ask) => {
    const name = state.trains[ask.train]?.name ?? ask.train;
    const to = spokenDestination(railroad, ask.to);
    return [
      ...(ask.free ? [offer(`grant ${name} to ${to}`, ask.request as SessionInput)] : []),
      offer(`${name} no longer asks ${to}`, { do: 'withdraw', train: ask.train }),
    ];
  });
}

/** Trains that no strip shows: not on the track, or with no cab. They are picked here. */
function picks({ state }: LineContext): readonly Option[] {
  return (Object.entries(state.trains) as [TrainId, TrainNow][])
    .filter(([, { placed, cab, coupledInto }]) => coupledInto === null && (!placed || cab === null))
    .map(([train, { name }]) => ({ says: `pick ${name}`, does: { kind: 'pick', train } }));
}

function stages({ state }: LineContext): readonly Option[] {
  return [
    ...(state.phase === 'making-up' ? [offer('start', { do: 'start' })] : []),
    ...(state.phase === 'running' ? [offer('break', { do: 'stop-all', why: 'a break', kind: 'break' })] : []),
    ...(state.phase === 'stopped' ? [offer('run again', { do: 'resume' })] : []),
    offer('end the evening', { do: 'end-session' }),
  ];
}

const RATIOS = [1, 2, 4, 6, 12] as const;
/** Railroad time begins at six in the morning unless it is typed. */
const MORNING_MINUTES = 360;

/** @param seconds since the session was opened: another ratio goes on from the railroad time that it is now */
function clock({ state }: LineContext, seconds: number): readonly Option[] {
  const minutes = state.clock === null ? MORNING_MINUTES : railroadMinutes(state.clock, seconds);
  return [
    ...RATIOS.map((ratio) => offer(`${ratio} to 1`, { do: 'set-clock', ratio, minutes })),
    typed('at a time', 'clock '),
    ...(state.clock === null ? [] : [offer('no railroad time', { do: 'set-clock', ratio: 0, minutes: 0 })]),
  ];
}

/** @param seconds since the session was opened, now */
export function eveningOffers(context: LineContext, seconds: number): readonly OfferGroup[] {
  const { railroad, state } = context;
  const presumed = asShown(state);
  return filled([
    { title: 'Asks', options: asks(context) },
    { title: 'Trains without a cab or a place', options: picks(context) },
    { title: 'The evening', options: stages(context) },
    {
      title: 'Knobs',
      options: [
        ...(presumed.length === 0 ? [] : [offer(`as shown (${presumed.length} presumed)`, ...presumed)]),
        ...railroad.document.settings.map(({ id, name }) =>
          offer(`set: ${name}`, { do: 'apply-setting', setting: id }),
        ),
      ],
    },
    { title: 'Railroad time', options: clock(context, seconds) },
    {
      title: 'Out of service',
      options: state.tags.map(({ thing, why }) =>
        offer(`${thing} (${why}): back`, { do: 'untag', thing, by: DISPATCHER }),
      ),
    },
    {
      title: 'To write down',
      options: [
        typed('a guest’s train', 'new '),
        typed('a note', 'note '),
        typed('override the last refusal', 'override '),
        typed('take an entry back', 'retract '),
      ],
    },
  ]);
}
