/** What can be said of a block or turnout that was pressed on the board: by pointer alone, every order and report about it. */
import type { BlockId, TrainId } from '../../shared-model/ids.ts';
import { isStop } from '../../shared-model/railroad/travel.ts';
import { authorityOf } from '../../shared-model/session/facts/authorities.ts';
import type { SessionInput } from '../../shared-model/session/input.ts';
import { spokenBlock } from '../../shared-model/session/say.ts';
import type { TrainNow } from '../../shared-model/session/state.ts';
import { Act } from '../parts/act.tsx';
import { Dialog } from '../parts/dialog.tsx';
import type { DeskSource } from './desk-source.ts';

interface ThingProps {
  readonly source: DeskSource;
  readonly thing: string;
  /** The train that was picked on its strip; orders are for it. */
  readonly train: TrainId | null;
  readonly onSend: (inputs: readonly SessionInput[]) => void;
  readonly onClose: () => void;
}

interface Offer {
  readonly says: string;
  readonly input: SessionInput;
}

function spotsOf({ railroad }: DeskSource, block: BlockId) {
  return (railroad.edgesOfBlock.get(block) ?? []).flatMap((edge) =>
    (railroad.edges.get(edge)?.between ?? [])
      .filter((node) => isStop(railroad, node))
      .map((toward) => ({ edge, toward })),
  );
}

function trainOffers(source: DeskSource, block: BlockId, id: TrainId, train: TrainNow): readonly Offer[] {
  const { state } = source;
  const spots = spotsOf(source, block);
  const cab = train.cab;
  if (!train.placed)
    return spots.flatMap((spot) =>
      source.railroad.document.throttles
        .filter((throttle) => state.cabs[throttle.id]?.person != null)
        .map((throttle) => ({
          says: `place ${train.name} facing ${spot.toward} on ${throttle.name}`,
          input: { do: 'place-train', train: id, ...spot, cab: throttle.id },
        })),
    );
  const held = authorityOf(state, id);
  const inside = train.blocks.includes(block);
  const offers: Offer[] = [];
  if (held === null || held.authority.kind === 'move') {
    offers.push({ says: `${train.name} to here`, input: { do: 'request-move', train: id, to: block } });
    offers.push({
      says: `${train.name} to here, over the gap`,
      input: { do: 'request-move', train: id, to: block, overhang: true },
    });
  }
  offers.push({ says: `${train.name} ends here`, input: { do: 'declare', train: id, to: block } });
  if (held === null)
    offers.push({
      says: `limits here for ${train.name}`,
      input: { do: 'grant-limits', train: id, blocks: [block] },
    });
  offers.push({ says: `${train.name} is in here`, input: { do: 'train-entered', train: id, block } });
  if (inside)
    offers.push({ says: `${train.name} is clear of here`, input: { do: 'train-cleared', train: id, block } });
  offers.push(
    ...spots.map(
      (spot): Offer => ({
        says: `${train.name} stands here facing ${spot.toward}`,
        input: { do: held?.authority.kind === 'limits' ? 'release-limits' : 'train-at', train: id, ...spot },
      }),
    ),
  );
  for (const throttle of source.railroad.document.throttles)
    if (throttle.id !== cab && state.cabs[throttle.id]?.person != null)
      offers.push({
        says: `from here on with ${throttle.name}`,
        input: { do: 'hand-off', train: id, block, toCab: throttle.id },
      });
  return offers;
}

function blockOffers(source: DeskSource, block: BlockId): readonly Offer[] {
  if (source.state.blocks[block]?.state !== 'disputed') return [];
  const placed = (Object.entries(source.state.trains) as [TrainId, TrainNow][]).filter(
    ([, train]) => train.placed,
  );
  return [
    { says: 'it is empty', input: { do: 'settle', block, state: 'open' } },
    ...placed.map(
      ([id, train]): Offer => ({
        says: `${train.name} is in it`,
        input: { do: 'settle', block, state: 'occupied', train: id },
      }),
    ),
  ];
}

function tagOffers({ state }: DeskSource, thing: string): readonly Offer[] {
  const tag = state.tags.find((other) => other.thing === thing);
  return tag === undefined
    ? [
        {
          says: 'tag it out of service',
          input: { do: 'tag', thing, why: 'out of service', by: 'dispatcher' },
        },
      ]
    : [{ says: `remove the tag (${tag.why})`, input: { do: 'untag', thing, by: tag.by } }];
}

export function ThingActs({ source, thing, train, onSend, onClose }: ThingProps) {
  const block = source.railroad.blocks.has(thing as BlockId) ? (thing as BlockId) : null;
  const now = train === null ? undefined : source.state.trains[train];
  const offers: readonly Offer[] =
    block === null
      ? [
          ...(['normal', 'reverse'] as const).map(
            (position): Offer => ({
              says: `thrown ${position}`,
              input: { do: 'throw-turnout', turnout: thing as never, position },
            }),
          ),
          ...(['normal', 'reverse'] as const).map(
            (position): Offer => ({
              says: `found ${position}`,
              input: { do: 'turnout-stands-at', turnout: thing as never, position },
            }),
          ),
          ...tagOffers(source, thing),
        ]
      : [
          ...blockOffers(source, block),
          ...(train === null || now === undefined ? [] : trainOffers(source, block, train, now)),
          ...tagOffers(source, thing),
        ];
  return (
    <Dialog title={block === null ? thing : `Block ${spokenBlock(source.railroad, block)}`} onClose={onClose}>
      {block !== null && train === null ? (
        <p className="quiet">Pick a train on a strip to say where it goes.</p>
      ) : null}
      <div className="desk-acts">
        {offers.map(({ says, input }) => (
          <Act
            key={says}
            kind="calm"
            onPress={() => {
              onSend([input]);
              onClose();
            }}
          >
            {says}
          </Act>
        ))}
        <Act kind="calm" onPress={onClose}>
          Leave it
        </Act>
      </div>
    </Dialog>
  );
}
