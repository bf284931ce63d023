/** Which trains stand where, on whose cab, where they are to end up; what is wrong with it stands at its row. */
import type { ThrottleId, TrainId } from '../../shared-model/ids.ts';
import { Act } from '../parts/act.tsx';
import { placeOf, withoutKnob } from './knobs-in-the-way.ts';
import type { Origin } from './origin.ts';
import { type DraftTrain, TrainRow } from './train-row.tsx';
import type { Rehearsal } from './use-rehearsal.ts';
import { named, spotOf, standingPlaces, trainWords } from './words.ts';

/** Whether a train stands where an order that it runs by will bring it. */
const isOnItsWay = ({ underWay, json }: Origin, { train, edge, toward }: DraftTrain): boolean =>
  underWay.has(train as TrainId) &&
  json.trains.some((one) => one.train === train && one.edge === edge && one.toward === toward);

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

  const changeTrain = (index: number, says: string, part: object) =>
    change(
      `${trainWords(railroad, json.trains[index]?.train ?? '')}: ${says}`,
      {
        ...json,
        trains: json.trains.map((train, place) => {
          if (place !== index) return train;
          const next = { ...train, ...part };
          return Object.fromEntries(
            Object.entries(next).filter(([, value]) => value !== undefined),
          ) as DraftTrain;
        }),
      },
      `${index} ${says}`,
    );
  const add = (id: string) => {
    const taken = new Set(json.trains.map(({ edge }) => edge as string));
    const free = places.find(({ value }) => !taken.has(spotOf(value).edge)) ?? places[0];
    const cabs = new Set(json.trains.map(({ cab }) => cab as string));
    const { throttles } = railroad.document;
    const cab = throttles.find((throttle) => !cabs.has(throttle.id)) ?? throttles[0];
    if (free === undefined || cab === undefined) return;
    change(`${trainWords(railroad, id)} put on`, {
      ...json,
      trains: [...json.trains, { train: id as TrainId, ...spotOf(free.value), cab: cab.id as ThrottleId }],
    });
  };
  return (
    <section className="rehearsal-trains" aria-label="Trains">
      {wrong !== null && at.row === null ? (
        <p role="alert" className="rehearsal-problem">
          {at.knob === null ? sentence : `${named(railroad, at.knob)}: ${sentence}`}{' '}
          {at.knob === null ? null : (
            <Act kind="calm" onPress={() => change('a knob turned', withoutKnob(json, at.knob ?? ''))}>
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
      {json.trains.length === 0 ? (
        <p>
          No train stands anywhere yet. Put one on the track: pick it, say where its head stands and where it
          is to end up.
        </p>
      ) : null}
      <ul className="rehearsal-train-list">
        {json.trains.map((train, index) => (
          <TrainRow
            key={train.train}
            rehearsal={rehearsal}
            train={train}
            places={places}
            problem={at.row === index ? sentence : undefined}
            picked={picked === train.train}
            onPick={() => onPick(picked === train.train ? null : train.train)}
            onItsWay={isOnItsWay(origin, train)}
            onChange={(says, part) => changeTrain(index, says, part)}
            onRemove={() =>
              change(`${trainWords(railroad, train.train)} taken out`, {
                ...json,
                trains: json.trains.filter((_, place) => place !== index),
              })
            }
          />
        ))}
      </ul>
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
