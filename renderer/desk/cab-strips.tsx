/** A strip for each cab: person, trains, where to, what for it waits; one touch advances its train, another calls stop. */
import type { ThrottleId } from '../../shared-model/ids.ts';
import { authoritiesInForce } from '../../shared-model/session/facts/authorities.ts';
import { spokenBlock } from '../../shared-model/session/say.ts';
import { Act } from '../parts/act.tsx';
import { Badge } from '../parts/badge.tsx';
import { advanceable } from './desk-acts.ts';
import { type DeskSource, stretch } from './desk-source.ts';
import { doingOf } from './option.ts';
import { type StripTrain, stripTrain, trainsOfCab } from './strip-words.ts';
import type { Desk } from './use-desk.ts';

interface StripsProps {
  readonly source: DeskSource;
  readonly desk: Desk;
  readonly onOpen: (thing: string) => void;
}

interface TrainWordsProps {
  readonly train: StripTrain;
  /** Said before the train where the cab has only this one. */
  readonly person: string | null;
  readonly picked: boolean;
  readonly onOpen: () => void;
}

function TrainWords({ train, person, picked, onOpen }: TrainWordsProps) {
  const { name, where, doing, waits, time, flags } = train;
  return (
    <button type="button" className="desk-train" aria-pressed={picked} onClick={onOpen}>
      {person === null ? null : <strong className="desk-person">{person} </strong>}
      <strong>{name}</strong> <span>{where}</span>{' '}
      {doing === '' ? null : <strong className="desk-goes">{doing} </strong>}
      {waits === '' ? null : <span>{waits} </span>}
      {flags.map((flag) => (
        <strong key={flag} className="desk-flag">
          {flag}{' '}
        </strong>
      ))}
      {time === '' ? null : <span className="desk-time">{time}</span>}
    </button>
  );
}

/** What one touch says of a cab's train: it is in its next block, or at its limit. */
function advanceWords({ railroad, state }: DeskSource, cab: ThrottleId): string | null {
  const held = authoritiesInForce(state).find(
    ({ authority }) => authority.kind === 'move' && state.trains[authority.train]?.cab === cab,
  );
  if (held === undefined || held.authority.state === 'granted') return null;
  const next = held.authority.legs[held.authority.at + 1];
  return next === undefined ? 'at limit' : `in ${spokenBlock(railroad, next.block)}`;
}

function Strip({
  source,
  desk,
  onOpen,
  cab,
  index,
}: StripsProps & { readonly cab: ThrottleId; readonly index: number }) {
  const { railroad, state, seconds } = source;
  const now = state.cabs[cab];
  const person = now?.person ?? null;
  const name = railroad.throttles.get(cab)?.name ?? cab;
  const trains = trainsOfCab(source, cab).map(([id, train]) => stripTrain(source, id, train, seconds));
  const called = now?.calledAt ?? null;
  const advance = state.phase === 'running' ? advanceWords(source, cab) : null;
  const running = state.phase === 'running' && person !== null;
  return (
    <li className="desk-strip" data-cab={cab}>
      <button
        type="button"
        className="desk-who"
        onClick={() => onOpen(cab)}
        aria-label={`${name}, ${person ?? 'nobody'}`}
      >
        <Badge index={index} mark={cab} />
      </button>
      <div className="desk-strip-words">
        {trains.length === 1 ? null : <strong className="desk-person">{person ?? '–'}</strong>}
        {trains.length === 0 ? <span className="quiet">{person === null ? 'free' : 'no train'}</span> : null}
        {trains.map((train) => (
          <TrainWords
            key={train.train}
            train={train}
            person={trains.length === 1 ? (person ?? '–') : null}
            picked={desk.picked === train.train}
            onOpen={() => {
              desk.pick(train.train);
              onOpen(train.train);
            }}
          />
        ))}
        {called === null ? null : <strong>called {stretch(seconds - called)}</strong>}
      </div>
      {advance === null || !running ? null : (
        <Act
          kind="calm"
          keyName={index < 6 ? String(index + 1) : undefined}
          label={`${name}: ${advance}`}
          onPress={() =>
            desk.doThis(doingOf(advanceable(source, cab), 'Which train?', 'It has no authority.'))
          }
        >
          {advance}
        </Act>
      )}
      {/* Alone, nobody calls and nobody is spoken to. */}
      {running && !state.alone && advance === null && called === null ? (
        <Act kind="calm" label={`${name} calls`} onPress={() => desk.sendInputs([{ do: 'call', cab }])}>
          Calls
        </Act>
      ) : null}
      {running && !state.alone ? (
        <Act
          kind="calm"
          label={`Call stop to ${name}`}
          onPress={() => desk.sendInputs([{ do: 'stop-called', cab }])}
        >
          Call stop
        </Act>
      ) : null}
    </li>
  );
}

export function CabStrips(props: StripsProps) {
  const { throttles } = props.source.railroad.document;
  return (
    <ul className="desk-strips" data-columns={throttles.length > 4 ? 2 : 1}>
      {throttles.map(({ id }, index) => (
        <Strip key={id} {...props} cab={id} index={index} />
      ))}
    </ul>
  );
}
