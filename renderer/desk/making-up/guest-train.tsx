/** A guest's train, for tonight: its number goes into the entry line's form, so that both ways make the same train. */
import { useState } from 'react';
import { Act } from '../../parts/act.tsx';
import { NumberBox, TextBox } from '../../parts/field.tsx';
import { readTyped } from '../entry-line/read-typed.ts';
import { optionOf } from '../option.ts';
import type { MakingUpProps } from './making-up-props.ts';

const FIRST = { name: '', length: 900, amps: 2.5 };

export function GuestTrain({ source, desk }: MakingUpProps) {
  const [guest, setGuest] = useState(FIRST);
  const [open, setOpen] = useState(false);
  const reading = readTyped(source, `new ${guest.name} ${guest.length} ${guest.amps}`);
  if (!open)
    return (
      <Act kind="calm" onPress={() => setOpen(true)}>
        A guest’s train
      </Act>
    );
  return (
    <div className="desk-guest">
      <TextBox label="Number and name" value={guest.name} onChange={(name) => setGuest({ ...guest, name })} />
      <NumberBox
        label="Length"
        unit="mm"
        least={1}
        value={guest.length}
        onChange={(length) => setGuest({ ...guest, length })}
      />
      <NumberBox
        label="Current"
        unit="A"
        least={0}
        step={0.1}
        value={guest.amps}
        onChange={(amps) => setGuest({ ...guest, amps })}
      />
      <Act
        kind="calm"
        notNow={reading.kind === 'one' && guest.name.trim() !== '' ? undefined : 'It needs a number first.'}
        onPress={() => {
          if (reading.kind !== 'one') return;
          desk.takeOption(optionOf(reading.proposal));
          setGuest(FIRST);
          setOpen(false);
        }}
      >
        Add it
      </Act>
    </div>
  );
}
