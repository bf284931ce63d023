/** Which trains stand where, on whose cab, where they are to end up; what is wrong with it stands at its row. */
import type { EdgeId, ThrottleId, TrainId } from '../../shared-model/ids.ts';
import type { Malformed } from '../../shared-model/malformed.ts';
import type { SituationJson } from '../../shared-model/planning/situation.ts';
import type { Railroad } from '../../shared-model/railroad/railroad.ts';
import { Act } from '../parts/act.tsx';
import { NumberBox } from '../parts/field.tsx';
import { Pick } from '../parts/pick.tsx';
import type { Rehearsal } from './use-rehearsal.ts';
import { blockName, named, spotOf, standingPlaces, trainWords } from './words.ts';

type DraftTrain = SituationJson['trains'][number];

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

/** What a sentence of the parser is about: a row, a knob, or all of it. */
function placeOf({ path }: Malformed): { readonly row: number | null; readonly knob: string | null } {
  const row = /^\$\.trains\[(\d+)\]/.exec(path)?.[1];
  const knob = /^\$\.(?:selectors|toggles)\.?\[?"?([\w-]+)/.exec(path)?.[1];
  return { row: row === undefined ? null : Number(row), knob: knob ?? null };
}

/** The way out where a knob contradicts the train above it: the knob is left to the rehearsal, which turns it to the train's cab. */
function withoutKnob(json: SituationJson, knob: string): SituationJson {
  const rest = <Value,>(record: Readonly<Record<string, Value>> | undefined) =>
    Object.fromEntries(Object.entries(record ?? {}).filter(([id]) => id !== knob));
  return { ...json, selectors: rest(json.selectors), toggles: rest(json.toggles) };
}

interface RowProps {
  readonly rehearsal: Rehearsal;
  readonly train: DraftTrain;
  readonly index: number;
  readonly places: ReturnType<typeof standingPlaces>;
  readonly problem: string | undefined;
  /** The next block that is touched on the board is where it is to go. */
  readonly picked: boolean;
  readonly onPick: () => void;
  readonly onChange: (part: Partial<Record<keyof DraftTrain, string | number | undefined>>) => void;
  readonly onRemove: () => void;
}

function TrainRow({ rehearsal, train, places, problem, picked, onPick, onChange, onRemove }: RowProps) {
  const { railroad } = rehearsal.origin;
  const name = trainWords(railroad, train.train);
  const blocks = railroad.document.blocks.map(({ id }) => ({ value: id, says: blockName(railroad, id) }));
  const toPlaces = railroad.document.places.map(({ id, name: place }) => ({
    value: placeKey(id),
    says: `${place}: its first free track`,
  }));
  const others = rehearsal.json.trains.filter((other) => other.train !== train.train);
  return (
    <li className="rehearsal-train" data-wrong={problem === undefined ? undefined : true}>
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
        label={`${name} stands in`}
        value={`${train.edge} ${train.toward}`}
        options={places}
        onChange={(value) => onChange(spotOf(value))}
      />
      <Pick
        label="on"
        value={train.cab}
        options={railroad.document.throttles.map((throttle) => ({ value: throttle.id, says: throttle.name }))}
        onChange={(cab) => onChange({ cab })}
      />
      <Pick
        label="to"
        value={train.to ?? STAYS}
        options={[{ value: STAYS, says: 'stays there' }, ...blocks, ...toPlaces]}
        onChange={(to) => onChange({ to: to === STAYS ? undefined : (trackOf(railroad, to, others) ?? to) })}
      />
      <NumberBox
        label="not before"
        value={train.notBefore ?? 0}
        least={0}
        most={36_000}
        unit="s"
        onChange={(notBefore) => onChange({ notBefore })}
      />
      <NumberBox
        label="at"
        value={train.mph ?? 30}
        least={1}
        most={200}
        unit="mph"
        onChange={(mph) => onChange({ mph })}
      />
      <Act kind="calm" label={`Take ${name} out`} onPress={onRemove}>
        Take out
      </Act>
      {problem === undefined ? null : (
        <p role="alert" className="rehearsal-problem">
          {problem}
        </p>
      )}
    </li>
  );
}

interface TrainsSheetProps {
  readonly rehearsal: Rehearsal;
  /** The train that the next touch on the board is about. */
  readonly picked: string | null;
  readonly onPick: (train: string | null) => void;
}

export function TrainsSheet({ rehearsal, picked, onPick }: TrainsSheetProps) {
  const { origin, json, parsed, change, fork } = rehearsal;
  const { railroad } = origin;
  const places = standingPlaces(railroad);
  const out = railroad.document.trains.filter(({ id }) => json.trains.every(({ train }) => train !== id));
  const wrong = parsed.ok ? null : parsed.malformed;
  const at = wrong === null ? { row: null, knob: null } : placeOf(wrong);
  const sentence =
    wrong === null ? '' : `${named(railroad, wrong.says).replace(/^./, (letter) => letter.toUpperCase())}.`;

  const changeTrain = (index: number, part: object) =>
    change({
      ...json,
      trains: json.trains.map((train, place) => {
        if (place !== index) return train;
        const next = { ...train, ...part };
        return Object.fromEntries(
          Object.entries(next).filter(([, value]) => value !== undefined),
        ) as DraftTrain;
      }),
    });
  const add = (id: string) => {
    const taken = new Set(json.trains.map(({ edge }) => edge as string));
    const free = places.find(({ value }) => !taken.has(spotOf(value).edge)) ?? places[0];
    const cabs = new Set(json.trains.map(({ cab }) => cab as string));
    const { throttles } = railroad.document;
    const cab = throttles.find((throttle) => !cabs.has(throttle.id)) ?? throttles[0];
    if (free === undefined || cab === undefined) return;
    change({
      ...json,
      trains: [...json.trains, { train: id as TrainId, ...spotOf(free.value), cab: cab.id as ThrottleId }],
    });
  };
  return (
    <section className="rehearsal-trains" aria-label="Trains">
      {json.trains.length === 0 ? (
        <p>
          No train stands anywhere yet. Put one on the track: pick it, say where its head stands and where it
          is to end up.
        </p>
      ) : null}
      <ul>
        {json.trains.map((train, index) => (
          <TrainRow
            key={train.train}
            rehearsal={rehearsal}
            train={train}
            index={index}
            places={places}
            problem={at.row === index ? sentence : undefined}
            picked={picked === train.train}
            onPick={() => onPick(picked === train.train ? null : train.train)}
            onChange={(part) => changeTrain(index, part)}
            onRemove={() => change({ ...json, trains: json.trains.filter((_, place) => place !== index) })}
          />
        ))}
      </ul>
      {wrong !== null && at.row === null ? (
        <p role="alert" className="rehearsal-problem">
          {at.knob === null ? sentence : `${named(railroad, at.knob)}: ${sentence}`}{' '}
          {at.knob === null ? null : (
            <Act kind="calm" onPress={() => change(withoutKnob(json, at.knob ?? ''))}>
              Turn it to that cab in this rehearsal
            </Act>
          )}
        </p>
      ) : null}
      {fork === null || fork.problems.length === 0 ? null : (
        <ul className="rehearsal-problem" aria-label="Against where they stand">
          {fork.problems.map((says) => (
            <li key={says}>{says}</li>
          ))}
        </ul>
      )}
      {origin.left.length === 0 ? null : (
        <ul aria-label="Not taken over">
          {origin.left.map((says) => (
            <li key={says}>Not taken over: {says}</li>
          ))}
        </ul>
      )}
      <div className="rehearsal-acts">
        {out.map(({ id, name }) => (
          <Act key={id} kind="calm" onPress={() => add(id)}>
            Put {name} on
          </Act>
        ))}
      </div>
    </section>
  );
}
