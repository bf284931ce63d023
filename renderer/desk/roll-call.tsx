/** While all is stopped: why, where each train is, and the way on when everybody has been called. */
import { spokenBlock } from '../../shared-model/session/say.ts';
import { Act } from '../parts/act.tsx';
import type { DeskSource } from './desk-source.ts';
import { isThere, knobsLeft, type RollTrain, rollOf } from './roll.ts';
import type { Desk } from './use-desk.ts';

/** The reason of a stop that was called by one key. */
const CALLED = 'called';

interface RollCallProps {
  readonly source: DeskSource;
  readonly desk: Desk;
}

function Called({
  source,
  desk,
  one,
  next,
}: RollCallProps & { readonly one: RollTrain; readonly next: boolean }) {
  const { train, answered } = one;
  const there = isThere(one);
  const where = train.blocks.map((block) => spokenBlock(source.railroad, block)).join(', ');
  return (
    <li className="desk-called-train">
      <strong>{train.name}</strong>
      <span>{answered ? `in ${where}` : `in ${where || 'no block'}?`}</span>
      {there === null ? null : (
        <Act
          kind="calm"
          keyName={next ? 'PgUp' : undefined}
          label={`${train.name} is there`}
          onPress={() => desk.sendInputs([there])}
        >
          There
        </Act>
      )}
    </li>
  );
}

export function RollCall({ source, desk }: RollCallProps) {
  const { stop } = source.state;
  const roll = rollOf(source);
  const left = roll.filter(({ answered }) => !answered);
  const knobs = knobsLeft(source).length;
  const says = (
    <p>
      {stop === null || stop.why === CALLED ? '' : `${stop.why}: `}
      {left.length === 0 ? 'Every train was called.' : `Where is each train? ${left.length} to call.`}{' '}
      {knobs === 0 ? 'Every knob was looked at.' : 'Which knobs were touched?'}
    </p>
  );
  return (
    <section className="desk-next" data-zone="next" aria-label="Next: the roll call">
      <div className="desk-roll-head">
        <p className="desk-far desk-now">{stop?.kind === 'break' ? 'BREAK' : 'ALL STOP'}</p>
        <Act onPress={() => desk.sendInputs([{ do: 'resume' }])}>Run again</Act>
        <Act
          kind="calm"
          keyName={left.length === 0 ? 'PgUp' : undefined}
          notNow={knobs === 0 ? 'Every knob was looked at since the stop.' : undefined}
          onPress={() => desk.sendInputs(knobsLeft(source))}
        >
          Knobs as shown
        </Act>
      </div>
      <div className="desk-about">
        {left.length === 0 ? says : null}
        <ul className="desk-roll">
          {/* Who is to be called next is always in sight, and so are six trains on the smallest screen: what is said comes below them. */}
          {[...left, ...roll.filter(({ answered }) => answered)].map((one) => (
            <Called key={one.id} source={source} desk={desk} one={one} next={one === left[0]} />
          ))}
        </ul>
        {left.length === 0 ? null : says}
      </div>
    </section>
  );
}
