/** The trains of the railroad: what they are called, how long they are, what they draw. */
import type { TrainId } from '../../../shared-model/ids.ts';
import type { Train } from '../../../shared-model/railroad/document.ts';
import { freshId } from '../../../shared-model/railroad/editing/draft.ts';
import { type Fields, withNew, without, withThing } from '../../../shared-model/railroad/editing/things.ts';
import { useConsole } from '../../console/use-console.tsx';
import { Act } from '../../parts/act.tsx';
import { PickBox } from '../../parts/field.tsx';
import { DraftFigure, DraftText } from '../draft-field.tsx';
import { ThingId } from '../thing-id.tsx';
import { TypedLength } from '../typed-length.tsx';
import { useDraft, useDrawingStore } from '../use-drawing.tsx';

const AMPS = { least: 0, most: 100, unit: 'amperes' } as const;

/** What a train draws and how long it is when nothing is known of it yet: a metre, or three feet and four inches. */
const NEW_AMPS = 2;
const NEW_MM = { metric: 1000, imperial: 1016 } as const;

const REVERSE_UNITS = [
  { value: 'unknown', says: 'not known' },
  { value: 'sequence', says: 'in sequence: forward, neutral, reverse, neutral' },
  { value: 'pulse', says: 'by pulse' },
  { value: 'locked', says: 'locked in forward' },
] as const;

function TrainFields({ train }: { readonly train: Train }) {
  const store = useDrawingStore();
  const set = (fields: Fields<Train>, what: string) =>
    store.change(
      withThing(store.get().history.draft, 'trains', train.id, fields),
      `${what} of ${train.name}`,
      `${train.id} ${what}`,
    );
  return (
    <fieldset className="trains-thing">
      <legend>{train.name}</legend>
      <DraftText label="Name of the train" value={train.name} onChange={(name) => set({ name }, 'name')} />
      <ThingId id={train.id} label={`Id of ${train.name}`} />
      <TypedLength label="Length" mm={train.length} onChange={(length) => set({ length }, 'length')} />
      <DraftFigure
        label="Draws (A)"
        hint="Pulling its usual train."
        value={train.amps}
        range={AMPS}
        onChange={(amps) => (amps === undefined ? undefined : set({ amps }, 'amperes'))}
      />
      <DraftFigure
        label="Stalled (A)"
        hint="Held fast at full throttle; may be left out."
        value={train.stallAmps}
        range={{ ...AMPS, above: true }}
        optional
        onChange={(stallAmps) => set({ stallAmps }, 'stall amperes')}
      />
      <PickBox
        label="Reverse unit"
        value={train.reverseUnit ?? 'unknown'}
        options={REVERSE_UNITS}
        onChange={(unit) => set({ reverseUnit: unit === 'unknown' ? undefined : unit }, 'reverse unit')}
      />
      <Act
        kind="calm"
        label={`Remove ${train.name}`}
        onPress={() =>
          store.change(without(store.get().history.draft, 'trains', train.id), `removed ${train.name}`)
        }
      >
        Remove
      </Act>
    </fieldset>
  );
}

export function TrainRows() {
  const store = useDrawingStore();
  const draft = useDraft();
  const length = NEW_MM[useConsole((state) => state.settings.lengths)];
  const add = () => {
    const id = freshId(draft, 't') as TrainId;
    const train = { id, name: `No. ${id.slice(1)}`, length, amps: NEW_AMPS };
    store.change(withNew(draft, 'trains', train), `train ${id}`);
  };
  return (
    <section aria-label="Trains">
      <h3>Trains</h3>
      {draft.trains.length === 0 ? (
        <p className="quiet">None yet. The longest one tells which blocks are too short.</p>
      ) : null}
      {draft.trains.map((train) => (
        <TrainFields key={train.id} train={train} />
      ))}
      <Act kind="calm" onPress={add}>
        Add a train
      </Act>
    </section>
  );
}
