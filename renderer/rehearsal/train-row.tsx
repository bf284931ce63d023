/** One train of a rehearsal: where its head stands, its cab, where it is to go, when and how fast, and what is wrong with that. */
import type { EdgeId } from '../../shared-model/ids.ts';
import type { SituationJson } from '../../shared-model/planning/situation.ts';
import type { Railroad } from '../../shared-model/railroad/railroad.ts';
import { Act } from '../parts/act.tsx';
import { NumberBox } from '../parts/field.tsx';
import { Pick } from '../parts/pick.tsx';
import { standsDead } from './knobs-in-the-way.ts';
import type { Rehearsal } from './use-rehearsal.ts';
import { blockName, spotOf, type standingPlaces, trainWords } from './words.ts';

export type DraftTrain = SituationJson['trains'][number];

/** No destination: the train stays where it is. */
const STAYS = '';

/** The value of a place in the list of destinations. */
const placeKey = (id: string): string => `place ${id}`;

/** The block of a place's first track that no other train stands in for good or goes to; where all are, of its first. */
function trackOf(railroad: Railroad, place: string, others: readonly DraftTrain[]): string | undefined {
  const at = railroad.document.places.find(({ id }) => placeKey(id) === place)?.at ?? [];
  const blocks = at.flatMap(({ edge }) => railroad.blockOfEdge.get(edge) ?? []);
  const taken = others.map(({ edge, to }) => to ?? railroad.blockOfEdge.get(edge as EdgeId));
  return blocks.find((block) => !taken.includes(block)) ?? blocks[0];
}

interface TrainRowProps {
  readonly rehearsal: Rehearsal;
  readonly train: DraftTrain;
  readonly places: ReturnType<typeof standingPlaces>;
  readonly problem: string | undefined;
  /** The next block that is touched on the board is where it is to go. */
  readonly picked: boolean;
  readonly onPick: () => void;
  /** The train's order brings it there first: it is not there yet. */
  readonly onItsWay: boolean;
  /** @param says what is done, as it is offered to be taken back */
  readonly onChange: (
    says: string,
    part: Partial<Record<keyof DraftTrain, string | number | undefined>>,
  ) => void;
  readonly onRemove: () => void;
}

export function TrainRow({
  rehearsal,
  train,
  places,
  problem,
  picked,
  onItsWay,
  onPick,
  onChange,
  onRemove,
}: TrainRowProps) {
  const { railroad } = rehearsal.origin;
  const name = trainWords(railroad, train.train);
  const blocks = railroad.document.blocks.map(({ id }) => ({ value: id, says: blockName(railroad, id) }));
  const toPlaces = railroad.document.places.map(({ id, name: place }) => ({
    value: placeKey(id),
    says: `${place}: its first free track`,
  }));
  const others = rehearsal.json.trains.filter((other) => other.train !== train.train);
  const isDead = others.some(({ cab }) => cab === train.cab) && standsDead(railroad, rehearsal.json, train);
  return (
    <li
      className="rehearsal-train"
      data-train={train.train}
      data-wrong={problem === undefined ? undefined : true}
    >
      <Act
        kind="calm"
        pressed={picked}
        label={
          picked
            ? `${name}: touch the block on the board where it is to go`
            : `Pick ${name}, to show on the board where it is to go`
        }
        onPress={onPick}
      >
        {name}
      </Act>
      <Pick
        of={name}
        label="stands in"
        value={`${train.edge} ${train.toward}`}
        options={places}
        onChange={(value) => onChange('where it stands', spotOf(value))}
      />
      <Pick
        label="on"
        value={train.cab}
        options={railroad.document.throttles.map((throttle) => ({ value: throttle.id, says: throttle.name }))}
        onChange={(cab) => onChange('its cab', { cab })}
      />
      <Pick
        label="to"
        value={train.to ?? STAYS}
        options={[{ value: STAYS, says: 'stays there' }, ...blocks, ...toPlaces]}
        onChange={(to) =>
          onChange('where it is to go', {
            to: to === STAYS ? undefined : (trackOf(railroad, to, others) ?? to),
          })
        }
      />
      <NumberBox
        label="not before"
        value={train.notBefore ?? 0}
        least={0}
        most={36_000}
        unit="s"
        onChange={(notBefore) => onChange('its earliest start', { notBefore })}
      />
      <NumberBox
        label="at"
        value={train.mph ?? 30}
        least={1}
        most={200}
        unit="mph"
        onChange={(mph) => onChange('its speed', { mph })}
      />
      <Act kind="calm" label={`Take ${name} out`} onPress={onRemove}>
        Take out
      </Act>
      {onItsWay ? (
        <p className="quiet rehearsal-way">
          {name} is on its way there by an order; it counts as having got there, and starts after that.
        </p>
      ) : null}
      {problem !== undefined || !isDead ? null : (
        <p className="quiet rehearsal-way">It stands dead, its track off: another train runs on its cab.</p>
      )}
      {problem === undefined ? null : (
        <p role="alert" className="rehearsal-problem">
          {problem}
        </p>
      )}
    </li>
  );
}
