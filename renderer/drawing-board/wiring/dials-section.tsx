/** The dials: what is on each in physical order, its make, and where it is on the wooden board. Toggles stand there too. */
import { useState } from 'react';
import { CURRENT } from '../../../shared-model/power/ranges.ts';
import type { Selector, Toggle } from '../../../shared-model/railroad/document.ts';
import { allDialsLike, nextSelector } from '../../../shared-model/railroad/editing/dials.ts';
import { withNew, withoutKnob, withThing } from '../../../shared-model/railroad/editing/things.ts';
import { Act } from '../../parts/act.tsx';
import { Choice, OnOff } from '../../parts/field.tsx';
import { DraftFigure, DraftText } from '../draft-field.tsx';
import { ThingId } from '../thing-id.tsx';
import { useDraft } from '../use-drawing.tsx';
import { DialFigure } from './dial-figure.tsx';
import { Disclosure } from './disclosure.tsx';
import { FindingsAbout } from './findings-about.tsx';
import { PositionsFields } from './positions-fields.tsx';
import { useChange } from './use-change.ts';

const CONTACTS = [
  { value: 'unknown', says: 'Not known' },
  { value: 'break-before-make', says: 'Breaks before it makes' },
  { value: 'make-before-break', says: 'Makes before it breaks' },
] as const;

const PLACE = { least: 0, most: 99, whole: true, unit: 'columns and rows, from 0' } as const;

function PlaceFields({
  list,
  knob,
}: {
  readonly list: 'selectors' | 'toggles';
  readonly knob: Selector | Toggle;
}) {
  const { change } = useChange();
  const [column, row] = knob.at ?? [];
  const set = (at: [number, number], what: string) =>
    change(
      (draft) => withThing(draft, list, knob.id, { at }),
      `place of ${knob.name} on the wooden board`,
      `${knob.id} ${what}`,
    );
  return (
    <div className="wiring-fields">
      <DraftFigure
        label="Column on the wooden board"
        value={column}
        range={PLACE}
        onChange={(next) => next !== undefined && set([next, row ?? 0], 'column')}
      />
      <DraftFigure
        label="Row"
        value={row}
        range={PLACE}
        onChange={(next) => next !== undefined && set([column ?? 0, next], 'row')}
      />
    </div>
  );
}

interface KnobProps<Knob> {
  readonly knob: Knob;
  readonly onRenamed: (id: string) => void;
}

function DialFields({ knob: selector, onRenamed }: KnobProps<Selector>) {
  const draft = useDraft();
  const { change, attempt } = useChange();
  const set = (fields: Partial<Selector>, says: string, field?: string) =>
    change(
      (before) => withThing(before, 'selectors', selector.id, fields),
      `${says} of selector ${selector.name}`,
      field,
    );
  const feeds = draft.blocks.filter(({ source }) => 'selector' in source && source.selector === selector.id);
  return (
    <>
      <div className="wiring-fields">
        <DialFigure selector={selector} />
        <DraftText
          label="Name on the wood"
          short
          value={selector.name}
          onChange={(name) => set({ name }, 'name', `${selector.id} name`)}
        />
        <ThingId id={selector.id} onRenamed={onRenamed} />
      </div>
      <p className="fine">
        {feeds.length === 0 ? 'It feeds nothing.' : `It feeds ${feeds.map(({ name }) => name).join(', ')}.`}
      </p>
      <FindingsAbout concerns={({ about }) => about[0] === selector.id} />
      <PositionsFields selector={selector} />
      <OnOff
        label="End stops"
        hint="With them, turning passes over every position between."
        on={selector.stops}
        onChange={(stops) => set({ stops }, 'end stops')}
      />
      <Choice
        label="Contacts"
        value={selector.contacts ?? 'unknown'}
        options={CONTACTS}
        onChange={(contacts) => set({ contacts }, 'contacts')}
      />
      <DraftFigure
        label="A contact carries (A)"
        value={selector.contactAmps}
        range={CURRENT}
        onChange={(contactAmps) =>
          contactAmps !== undefined && set({ contactAmps }, 'contact', `${selector.id} amps`)
        }
      />
      <PlaceFields list="selectors" knob={selector} />
      <p className="drawing-board-acts">
        <Act
          kind="calm"
          onPress={() =>
            change((before) => allDialsLike(before, selector.id), `all dials like ${selector.name}`)
          }
        >
          Make all dials like this one
        </Act>
        <Act
          kind="calm"
          onPress={() =>
            attempt(
              (before) => withoutKnob(before, 'selectors', selector.id),
              `no more selector ${selector.name}`,
            )
          }
        >
          Take the selector out
        </Act>
      </p>
    </>
  );
}

function ToggleFields({ knob: toggle, onRenamed }: KnobProps<Toggle>) {
  const { change, attempt } = useChange();
  return (
    <>
      <DraftText
        label="Name on the wood"
        value={toggle.name}
        onChange={(name) =>
          change(
            (draft) => withThing(draft, 'toggles', toggle.id, { name }),
            `name of ${toggle.id}`,
            `${toggle.id} name`,
          )
        }
      />
      <ThingId id={toggle.id} onRenamed={onRenamed} />
      <PlaceFields list="toggles" knob={toggle} />
      <Act
        kind="calm"
        onPress={() =>
          attempt((draft) => withoutKnob(draft, 'toggles', toggle.id), `no more toggle ${toggle.name}`)
        }
      >
        Take the toggle out
      </Act>
    </>
  );
}

export function DialsSection() {
  const draft = useDraft();
  const { change } = useChange();
  const [open, setOpen] = useState<string | null>(null);
  const toggled = (id: string) => setOpen(open === id ? null : id);
  const feeds = (knob: string) =>
    draft.blocks
      .filter(({ source }) => Object.values(source).some((id) => id === knob))
      .map(({ name }) => name)
      .join(', ') || 'feeds nothing';
  return (
    <>
      <ul className="wiring-list">
        {draft.selectors.map((selector) => (
          <Disclosure
            key={selector.id}
            id={selector.id}
            mark={selector.id}
            name={selector.name}
            says={`${selector.positions.map((position) => position ?? 'not wired').join(' ')}; ${feeds(selector.id)}`}
            open={open === selector.id}
            onToggle={() => toggled(selector.id)}
          >
            <DialFields knob={selector} onRenamed={setOpen} />
          </Disclosure>
        ))}
        {draft.toggles.map((toggle) => (
          <Disclosure
            key={toggle.id}
            id={toggle.id}
            mark={toggle.id}
            name={toggle.name}
            says={`toggle; ${feeds(toggle.id)}`}
            open={open === toggle.id}
            onToggle={() => toggled(toggle.id)}
          >
            <ToggleFields knob={toggle} onRenamed={setOpen} />
          </Disclosure>
        ))}
      </ul>
      <Act
        kind="calm"
        onPress={() => {
          const selector = nextSelector(draft);
          change((before) => withNew(before, 'selectors', selector), `selector ${selector.name}`);
          setOpen(selector.id);
        }}
      >
        Another selector
      </Act>
    </>
  );
}
