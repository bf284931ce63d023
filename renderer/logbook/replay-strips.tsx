/** The strips of the cabs as they were: who had what, where it was, what it waited for; to look at only. */
import type { Railroad } from '../../shared-model/railroad/railroad.ts';
import type { SessionState } from '../../shared-model/session/state.ts';
import { stripTrain, trainsOfCab } from '../desk/strip-words.ts';
import { Badge } from '../parts/badge.tsx';

interface StripsProps {
  readonly railroad: Railroad;
  readonly state: SessionState;
}

export function ReplayStrips({ railroad, state }: StripsProps) {
  const world = { railroad, state };
  return (
    <ul className="replay-strips" aria-label="Cabs, as they were">
      {railroad.document.throttles.map(({ id, name }, index) => {
        const cab = state.cabs[id];
        const trains = trainsOfCab(world, id).map(([train, now]) => stripTrain(world, train, now, state.at));
        return (
          <li key={id}>
            <Badge index={index} mark={id} label={name} />
            <span>
              <strong>{cab?.person ?? '–'}</strong>
              {trains.length === 0 ? (
                <span className="quiet"> {cab?.person == null ? 'free' : 'no train'}</span>
              ) : null}
              {trains.map((train) => (
                <span key={train.train}>
                  {' '}
                  <strong>{train.name}</strong> {train.where} <strong>{train.doing}</strong> {train.waits}{' '}
                  {train.flags.map((flag) => (
                    <strong key={flag}>{flag} </strong>
                  ))}
                  {train.time}
                </span>
              ))}
              {cab?.stopCalled === true ? <strong> stop called</strong> : null}
            </span>
          </li>
        );
      })}
    </ul>
  );
}
