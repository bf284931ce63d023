/** Making up: who has which cab, which trains stand where, the setting, the knobs walked along as shown, phase checks that are due, start. */
import { useState } from 'react';
import type { ThrottleId, TrainId } from '../../shared-model/ids.ts';
import { phaseFact } from '../../shared-model/session/facts/phase.ts';
import type { SessionInput } from '../../shared-model/session/input.ts';
import { spokenBlock } from '../../shared-model/session/say.ts';
import type { TrainNow } from '../../shared-model/session/state.ts';
import { Act } from '../parts/act.tsx';
import { Badge } from '../parts/badge.tsx';
import type { DeskSource } from './desk-source.ts';

interface MakingUpProps {
  readonly source: DeskSource;
  readonly follow: TrainId | null;
  readonly onFollow: (train: TrainId) => void;
  readonly onSend: (inputs: readonly SessionInput[]) => void;
}

function CabRow({
  source,
  cab,
  index,
  onSend,
}: Pick<MakingUpProps, 'source' | 'onSend'> & { readonly cab: ThrottleId; readonly index: number }) {
  const person = source.state.cabs[cab]?.person ?? '';
  const [name, setName] = useState(person);
  /** With nothing typed the cab goes to "Operator n", so that no key is needed. */
  const give = (typed = name) => {
    const trimmed = typed.trim();
    if (trimmed !== person)
      onSend([{ do: 'assign-cab', cab, person: trimmed === '' ? null : trimmed.slice(0, 60) }]);
  };
  return (
    <li className="desk-strip">
      <Badge index={index} mark={cab} />
      <label className="desk-person">
        <span className="fine quiet">{source.railroad.throttles.get(cab)?.name}</span>
        <input
          className="field-input"
          value={name}
          placeholder="nobody"
          onChange={(event) => setName(event.target.value)}
          onBlur={() => give()}
          onKeyDown={(event) => event.key === 'Enter' && give()}
        />
      </label>
      <Act
        kind="calm"
        onPress={() => {
          const next = person === '' && name.trim() === '' ? `Operator ${index + 1}` : name;
          setName(next);
          give(next);
        }}
      >
        Give
      </Act>
      {person === '' ? null : (
        <Act
          kind="calm"
          onPress={() => {
            setName('');
            onSend([{ do: 'assign-cab', cab, person: null }]);
          }}
        >
          Free
        </Act>
      )}
    </li>
  );
}

function TrainRow({
  source,
  id,
  train,
  follow,
  onFollow,
  onSend,
}: MakingUpProps & { readonly id: TrainId; readonly train: TrainNow }) {
  const where = train.placed
    ? `in ${train.blocks.map((block) => spokenBlock(source.railroad, block)).join(', ')} on ${train.cab ?? 'no cab'}`
    : follow === id
      ? 'press the block on the board where it stands'
      : 'not placed';
  return (
    <li className="desk-strip">
      <button type="button" className="desk-train" aria-pressed={follow === id} onClick={() => onFollow(id)}>
        <strong>{train.name}</strong> <span className="quiet">{where}</span>
      </button>
      {train.placed ? (
        <Act kind="calm" onPress={() => onSend([{ do: 'take-off', train: id }])}>
          Lift off
        </Act>
      ) : null}
    </li>
  );
}

/** Knobs, turnouts and toggles that nobody has looked at tonight, as reports that they stand as shown. */
function asShown({ state }: DeskSource): readonly SessionInput[] {
  return [
    ...Object.entries(state.selectors)
      .filter(([, { presumed }]) => presumed)
      .map(
        ([selector, { position }]): SessionInput => ({
          do: 'selector-stands-at',
          selector: selector as never,
          position,
        }),
      ),
    ...Object.entries(state.turnouts)
      .filter(([, { presumed }]) => presumed)
      .map(
        ([turnout, { position }]): SessionInput => ({
          do: 'turnout-stands-at',
          turnout: turnout as never,
          position,
        }),
      ),
    ...Object.entries(state.toggles)
      .filter(([, { presumed }]) => presumed)
      .map(([toggle, { on }]): SessionInput => ({ do: 'toggle-stands-at', toggle: toggle as never, on })),
  ];
}

/** Pairs of supplies for which no valid check speaks. */
function unchecked({ railroad, state }: DeskSource): readonly string[] {
  const firsts = railroad.document.supplies.flatMap(
    ({ id }) => railroad.document.throttles.find(({ supply }) => supply === id) ?? [],
  );
  return firsts.flatMap((one, index) =>
    firsts
      .slice(index + 1)
      .filter((other) => phaseFact({ railroad, state }, one.id, other.id) === 'phase-unknown')
      .map(
        (other) =>
          `${railroad.supplies.get(one.supply)?.name ?? ''} and ${railroad.supplies.get(other.supply)?.name ?? ''}`,
      ),
  );
}

export function MakingUp(props: MakingUpProps) {
  const { source, onSend } = props;
  const { railroad, state } = source;
  const presumed = asShown(source);
  const due = unchecked(source);
  return (
    <section className="desk-making" data-zone="cabs" aria-label="Making up">
      <div>
        <h2>Who runs</h2>
        <ul>
          {railroad.document.throttles.map(({ id }, index) => (
            <CabRow key={id} source={source} cab={id} index={index} onSend={onSend} />
          ))}
        </ul>
      </div>
      <div>
        <h2>Trains</h2>
        <ul>
          {(Object.entries(state.trains) as [TrainId, TrainNow][]).map(([id, train]) => (
            <TrainRow key={id} {...props} id={id} train={train} />
          ))}
        </ul>
      </div>
      <div>
        <h2>Knobs</h2>
        <div className="desk-acts">
          {railroad.document.settings.map(({ id, name }) => (
            <Act key={id} kind="calm" onPress={() => onSend([{ do: 'apply-setting', setting: id }])}>
              Set: {name}
            </Act>
          ))}
          <Act
            kind="calm"
            onPress={() => onSend(presumed)}
            notNow={presumed.length === 0 ? 'Every knob was thrown or reported tonight.' : undefined}
          >
            As shown ({presumed.length} presumed)
          </Act>
        </div>
        {due.length === 0 ? null : (
          <p>
            No phase check for {due.join('; ')}. <a href="#/power-room">Measure now</a>
          </p>
        )}
        {state.tags.map(({ thing, why, by }) => (
          <p key={thing}>
            {thing} is tagged: {why} ({by}).
          </p>
        ))}
        <div className="desk-acts">
          <Act onPress={() => onSend([{ do: 'start' }])}>Start the evening</Act>
        </div>
      </div>
    </section>
  );
}
