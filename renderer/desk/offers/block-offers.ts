/** What can be said of a block that was touched: above all, what the picked train does there. */
import type { BlockId, TrainId } from '../../../shared-model/ids.ts';
import { facingWords, stopsIn } from '../../../shared-model/railroad/where-words.ts';
import { authorityOf } from '../../../shared-model/session/facts/authorities.ts';
import { cutsIn, trainsIn } from '../../../shared-model/session/facts/standing.ts';
import { spokenBlock } from '../../../shared-model/session/say.ts';
import type { TrainNow } from '../../../shared-model/session/state.ts';
import { settleOptions } from '../alarm-list.ts';
import type { LineContext } from '../entry-line/reading.ts';
import { meantSpots } from '../entry-line/spots.ts';
import type { Option } from '../option.ts';
import { filled, type OfferGroup, offer, typed } from './offer-group.ts';
import { tagOffers } from './tag-offers.ts';
import { typedTrain } from './train-offers.ts';

interface Case {
  readonly context: LineContext;
  readonly block: BlockId;
  readonly train: TrainId;
  readonly now: TrainNow;
}

/** Placing: each facing, with each cab that somebody has, or with none. */
function placing({ context: { railroad, state }, block, train }: Case): readonly Option[] {
  const cabs = railroad.document.throttles.filter(({ id }) => state.cabs[id]?.person != null);
  return stopsIn(railroad, block).flatMap((spot) => {
    const facing = facingWords(railroad, spot);
    return [
      ...cabs.map(({ id, name }) =>
        offer(`${facing}, ${name}`, { do: 'place-train', train, ...spot, cab: id }),
      ),
      offer(`${facing}, no cab`, { do: 'place-train', train, ...spot }),
    ];
  });
}

function moves({ context: { railroad, state }, block, train }: Case): readonly Option[] {
  const held = authorityOf(state, train);
  if (held?.authority.kind === 'limits') return [];
  const request = { do: 'request-move' as const, train, to: block };
  const places = railroad.document.places.filter(({ at }) =>
    at.some(({ edge }) => railroad.blockOfEdge.get(edge) === block),
  );
  return [
    offer('to here', request),
    ...places.map(({ id, name }) => offer(`to ${name}`, { ...request, to: id })),
    offer('to here, over the gap', { ...request, overhang: true }),
    ...cutsIn({ railroad, state }, block).map((cut) =>
      offer(`to here, joining ${cut}`, { ...request, joining: cut }),
    ),
    offer('ends here', { do: 'declare', train, to: block }),
  ];
}

function reports({ context, block, train, now }: Case): readonly Option[] {
  const { railroad, state } = context;
  const held = authorityOf(state, train)?.authority;
  const where = { kind: 'block', id: block, label: '', marks: [], names: [], number: null } as const;
  const spots = meantSpots(context, { where, train, facing: null });
  const done = held?.kind === 'limits';
  return [
    offer('is in here', { do: 'train-entered', train, block }),
    ...(now.blocks.includes(block) ? [offer('is clear of here', { do: 'train-cleared', train, block })] : []),
    ...spots.map((spot) =>
      offer(`stands here, ${facingWords(railroad, spot)}`, { do: 'train-at', train, ...spot }),
    ),
    ...(done
      ? spots.map((spot) =>
          offer(`done with its limits here, ${facingWords(railroad, spot)}`, {
            do: 'release-limits',
            train,
            ...spot,
          }),
        )
      : []),
  ];
}

function more({ context: { railroad, state }, block, train, now }: Case): readonly Option[] {
  const held = authorityOf(state, train);
  const mark = spokenBlock(railroad, block);
  const number = typedTrain(train, now);
  const cabs = railroad.document.throttles.filter(
    ({ id }) => id !== now.cab && state.cabs[id]?.person != null,
  );
  return [
    ...cabs.map(({ id, name }) =>
      offer(`hand off from here to ${name}`, { do: 'hand-off', train, block, toCab: id }),
    ),
    ...(held === null
      ? [
          offer('limits here', { do: 'grant-limits', train, blocks: [block] }),
          typed('limits here and …', `${number} limits ${mark},`),
        ]
      : []),
  ];
}

/** The trains in the block, other than the picked one: each can be picked instead. */
function picks({ railroad, state }: LineContext, block: BlockId, picked: TrainId | null): readonly Option[] {
  return trainsIn({ railroad, state }, block)
    .filter((train) => train !== picked)
    .map((train) => ({ says: `pick ${state.trains[train]?.name ?? train}`, does: { kind: 'pick', train } }));
}

/** @param picked the train that was picked before, or null */
export function blockOffers(
  context: LineContext,
  block: BlockId,
  picked: TrainId | null,
): readonly OfferGroup[] {
  const { railroad, state } = context;
  const now = picked === null ? undefined : state.trains[picked];
  const mark = spokenBlock(railroad, block);
  const own: OfferGroup[] = [
    { title: 'What is true here', options: settleOptions(context, block) },
    { title: 'In here', options: picks(context, block, picked) },
    tagOffers(state, block, mark),
  ];
  if (picked === null || now === undefined) return filled(own);
  const one: Case = { context, block, train: picked, now };
  if (!now.placed) return filled([{ title: `${now.name} stands here`, options: placing(one) }, ...own]);
  return filled([
    ...(now.cab === null || state.phase !== 'running'
      ? []
      : [{ title: `${now.name} moves`, options: moves(one) }]),
    { title: `${now.name} reports`, options: reports(one) },
    ...(state.phase === 'running' ? [{ title: `${now.name}, more`, options: more(one) }] : []),
    ...own,
  ]);
}
