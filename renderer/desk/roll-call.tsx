/** While all is stopped: why, where each train is, and the way on when everybody has been called. */
import type { TrainId } from '../../shared-model/ids.ts';
import { spokenBlock } from '../../shared-model/session/say.ts';
import type { TrainNow } from '../../shared-model/session/state.ts';
import { Act } from '../parts/act.tsx';
import type { DeskSource } from './desk-source.ts';
import type { Desk } from './use-desk.ts';

/** The reason of a stop that was called by one key. */
const CALLED = 'called';

interface RollCallProps {
  readonly source: DeskSource;
  readonly desk: Desk;
}

/** Whether a train answered the roll call: something was said of where it is since the stop. */
function answered({ state, recent }: DeskSource, train: TrainId): boolean {
  const stop = recent.findLast(({ input, outcome }) => input.do === 'stop-all' && outcome !== 'refused');
  if (stop === undefined || state.trains[train] === undefined) return false;
  return recent.some(({ entry, input }) => entry > stop.entry && 'train' in input && input.train === train);
}

function Called({
  source,
  desk,
  id,
  train,
}: RollCallProps & { readonly id: TrainId; readonly train: TrainNow }) {
  const [head] = train.trail;
  const where = train.blocks.map((block) => spokenBlock(source.railroad, block)).join(', ');
  return (
    <li className="desk-called-train">
      <strong>{train.name}</strong>
      <span>{answered(source, id) ? `in ${where}` : `in ${where || 'no block'}?`}</span>
      {head === undefined ? null : (
        <Act
          kind="calm"
          label={`${train.name} is there`}
          onPress={() => desk.sendInputs([{ do: 'train-at', train: id, ...head }])}
        >
          There
        </Act>
      )}
    </li>
  );
}

export function RollCall({ source, desk }: RollCallProps) {
  const { stop, trains, selectors } = source.state;
  const placed = (Object.entries(trains) as [TrainId, TrainNow][]).filter(
    ([, train]) => train.placed && train.coupledInto === null,
  );
  const left = placed.filter(([id]) => !answered(source, id)).length;
  const presumed = Object.values(selectors).filter((one) => one.presumed).length;
  return (
    <section className="desk-next" data-zone="next" aria-label="Next: the roll call">
      <p className="desk-far desk-now">{stop?.kind === 'break' ? 'BREAK' : 'ALL STOP'}</p>
      <div className="desk-about">
        <p>
          {stop === null || stop.why === CALLED ? '' : `${stop.why}: `}
          {left === 0 ? 'Every train was called.' : `Where is each train? ${left} to call.`} Which knobs were
          touched?
          {presumed === 0 ? '' : ` ${presumed} presumed.`}
        </p>
        <ul className="desk-roll">
          {placed.map(([id, train]) => (
            <Called key={id} source={source} desk={desk} id={id} train={train} />
          ))}
        </ul>
      </div>
      <div className="desk-acts">
        <Act onPress={() => desk.sendInputs([{ do: 'resume' }])}>Run again</Act>
        <Act kind="calm" onPress={() => desk.sendInputs([{ do: 'end-session' }])}>
          End the evening
        </Act>
      </div>
    </section>
  );
}
