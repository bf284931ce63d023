/** The trains of the railroad and of tonight: pick one, then touch the block where it stands. */
import type { TrainId } from '../../../shared-model/ids.ts';
import { spokenBlock } from '../../../shared-model/session/say.ts';
import type { TrainNow } from '../../../shared-model/session/state.ts';
import { Act } from '../../parts/act.tsx';
import type { MakingUpProps } from './making-up-props.ts';

function whereWords({ source, desk }: MakingUpProps, id: TrainId, train: TrainNow): string {
  if (!train.placed) return desk.picked === id ? 'touch the block where it stands' : 'not on the track';
  const blocks = train.blocks.map((block) => spokenBlock(source.railroad, block)).join(', ');
  const cab = train.cab === null ? 'no cab' : (source.railroad.throttles.get(train.cab)?.name ?? train.cab);
  return `in ${blocks}, ${cab}`;
}

export function TrainRows(props: MakingUpProps) {
  const { source, desk } = props;
  const trains = Object.entries(source.state.trains) as [TrainId, TrainNow][];
  return (
    <ul>
      {trains.map(([id, train]) => (
        <li key={id} className="desk-make-row">
          <button
            type="button"
            className="desk-train"
            aria-pressed={desk.picked === id}
            onClick={() => desk.pick(id)}
          >
            <strong>{train.name}</strong> <span>{whereWords(props, id, train)}</span>
          </button>
          {train.placed ? (
            <Act
              kind="calm"
              label={`Lift ${train.name} off`}
              onPress={() => desk.sendInputs([{ do: 'take-off', train: id }])}
            >
              Lift off
            </Act>
          ) : null}
        </li>
      ))}
    </ul>
  );
}
