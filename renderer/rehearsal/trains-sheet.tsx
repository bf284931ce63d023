/** Which trains stand where, on whose cab, where they are to end up; what is wrong with it stands at its row. */
import { useEffect, useMemo, useRef } from 'react';
import type { ThrottleId, TrainId } from '../../shared-model/ids.ts';
import { useConsole } from '../console/use-console.tsx';
import { Act } from '../parts/act.tsx';
import { knobsTurned, placeOf, withoutKnob } from './knobs-in-the-way.ts';
import type { Origin } from './origin.ts';
import { freeSpot } from './room.ts';
import { type DraftTrain, TrainRow } from './train-row.tsx';
import type { Rehearsal } from './use-rehearsal.ts';
import { restWords, rowWords, wrongIn } from './what-is-wrong.ts';
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
  const { origin, json, change, fork } = rehearsal;
  const { railroad } = origin;
  const lengths = useConsole((state) => state.settings.lengths);
  const places = standingPlaces(railroad);
  const out = railroad.document.trains.filter(({ id }) => json.trains.every(({ train }) => train !== id));
  const wrong = useMemo(() => wrongIn(railroad, json), [railroad, json]);
  const knob = wrong.rest === null ? null : placeOf(wrong.rest).knob;
  const turned = knobsTurned(origin.json, json);
  const sheet = useRef<HTMLElement>(null);
  /** Where the next key goes after a train was put on or taken out: what was pressed is gone. */
  const goesOn = useRef('');
  // biome-ignore lint/correctness/useExhaustiveDependencies: when the list has changed
  useEffect(() => {
    if (goesOn.current !== '') sheet.current?.querySelector<HTMLElement>(goesOn.current)?.focus();
    goesOn.current = '';
  }, [json]);

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
  const problemOf = (row: number): string | undefined => {
    const malformed = wrong.rows.get(row);
    return malformed === undefined ? undefined : rowWords(railroad, json, row, malformed, lengths);
  };
  const add = (id: string) => {
    const cabs = new Set(json.trains.map(({ cab }) => cab as string));
    const { throttles } = railroad.document;
    const cab = throttles.find((throttle) => !cabs.has(throttle.id)) ?? throttles[0];
    if (cab === undefined) return;
    const [first] = places;
    const spot =
      freeSpot(railroad, json, id as TrainId, cab.id) ?? (first === undefined ? null : spotOf(first.value));
    if (spot === null) return;
    goesOn.current = `[data-train="${id}"] select`;
    change(`${trainWords(railroad, id)} put on`, {
      ...json,
      trains: [...json.trains, { train: id as TrainId, ...spot, cab: cab.id as ThrottleId }],
    });
  };
  return (
    <section ref={sheet} className="rehearsal-trains" aria-label="Trains">
      {wrong.rest === null ? null : (
        <p role="alert" className="rehearsal-problem">
          {restWords(railroad, wrong.rest)}{' '}
          {knob === null ? null : (
            <Act kind="calm" onPress={() => change('a knob turned', withoutKnob(json, knob))}>
              Turn it to that cab in this rehearsal
            </Act>
          )}
        </p>
      )}
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
      {turned.length === 0 ? null : (
        <p className="quiet">
          Turned in this rehearsal for the trains there: {turned.map((id) => named(railroad, id)).join(', ')}.
        </p>
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
            problem={problemOf(index)}
            picked={picked === train.train}
            onPick={() => onPick(picked === train.train ? null : train.train)}
            onItsWay={isOnItsWay(origin, train)}
            onChange={(says, part) => changeTrain(index, says, part)}
            onRemove={() => {
              goesOn.current = `[data-out="${train.train}"] button`;
              change(`${trainWords(railroad, train.train)} taken out`, {
                ...json,
                trains: json.trains.filter((_, place) => place !== index),
              });
            }}
          />
        ))}
      </ul>
      <div className="rehearsal-acts">
        {out.map(({ id, name }) => (
          <span key={id} data-out={id}>
            <Act kind="calm" onPress={() => add(id)}>
              Put {name} on
            </Act>
          </span>
        ))}
      </div>
    </section>
  );
}
