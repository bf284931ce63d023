/** While stopped: why, the roll call (where each train is), and the way on. At the end: the closing list. */
import type { TrainId } from '../../shared-model/ids.ts';
import type { SessionInput } from '../../shared-model/session/input.ts';
import { sayStopAll, spokenBlock } from '../../shared-model/session/say.ts';
import type { TrainNow } from '../../shared-model/session/state.ts';
import { Act } from '../parts/act.tsx';
import type { DeskSource } from './desk-source.ts';

interface StoppedProps {
  readonly source: DeskSource;
  readonly onSend: (inputs: readonly SessionInput[]) => void;
}

function RollCall({ source, onSend }: StoppedProps) {
  const placed = (Object.entries(source.state.trains) as [TrainId, TrainNow][]).filter(
    ([, train]) => train.placed,
  );
  return (
    <ul>
      {placed.map(([id, train]) => {
        const head = train.trail[0];
        const where = train.blocks.map((block) => spokenBlock(source.railroad, block)).join(', ');
        return (
          <li key={id} className="desk-strip">
            <strong>{train.name}</strong>
            <span>in {where || 'no block'}</span>
            {head === undefined ? null : (
              <Act kind="calm" onPress={() => onSend([{ do: 'train-at', train: id, ...head }])}>
                It is there
              </Act>
            )}
            <Act kind="calm" onPress={() => onSend([{ do: 'train-stopped', train: id }])}>
              Stopped
            </Act>
            <Act kind="calm" onPress={() => onSend([{ do: 'take-off', train: id }])}>
              Lift off
            </Act>
          </li>
        );
      })}
    </ul>
  );
}

export function StoppedZone({ source, onSend }: StoppedProps) {
  const { stop } = source.state;
  return (
    <section className="desk-next" data-zone="next" aria-label="Stopped">
      <p className="desk-far">{stop?.kind === 'break' ? 'BREAK' : 'ALL STOP'}</p>
      <p>
        {sayStopAll(source.railroad)} {stop?.why}
      </p>
      <RollCall source={source} onSend={onSend} />
      <div className="desk-acts">
        <Act onPress={() => onSend([{ do: 'resume' }])}>Run again</Act>
        <Act kind="calm" onPress={() => onSend([{ do: 'end-session' }])}>
          End the evening
        </Act>
      </div>
    </section>
  );
}

/** What is left to do when everybody goes home. */
export function ClosingList({ source }: { readonly source: DeskSource }) {
  const live = Object.entries(source.state.selectors).filter(([, { position }]) => position !== 'off');
  return (
    <section className="desk-next" data-zone="next" aria-label="Closing list">
      <h2>Before you go</h2>
      <ol>
        <li>All handles to zero.</li>
        <li>
          {live.length === 0
            ? 'All selectors are off.'
            : `Selectors to off: ${live.map(([id]) => id).join(', ')}.`}
        </li>
        <li>
          Master switch off
          {source.railroad.document.masterSwitch === undefined
            ? ''
            : `: ${source.railroad.document.masterSwitch}`}
          .
        </li>
        <li>
          {source.state.tags.length === 0
            ? 'No tags stand.'
            : `Tags that stay: ${source.state.tags.map(({ thing, why }) => `${thing} (${why})`).join(', ')}.`}
        </li>
      </ol>
      <p>
        The evening is in the <a href="#/logbook">Logbook</a>.
      </p>
    </section>
  );
}
