/** The name and the note of an evening. What happened in it cannot be changed. */
import { useState } from 'react';
import type { EveningCard } from '../../shared-model/wire/contract.ts';
import { Act } from '../parts/act.tsx';
import { Dialog } from '../parts/dialog.tsx';
import { TextBox } from '../parts/field.tsx';

/** As long as the log keeps them. */
const NAME_LONGEST = 120;
const NOTE_LONGEST = 4000;

interface EditProps {
  readonly card: EveningCard;
  readonly onKeep: (change: { readonly name: string; readonly note: string }) => void;
  readonly onClose: () => void;
}

const tooLong = (text: string, longest: number): string | undefined =>
  text.length > longest ? `At most ${longest} characters; this is ${text.length}.` : undefined;

export function EveningEdit({ card, onKeep, onClose }: EditProps) {
  const [name, setName] = useState(card.name);
  const [note, setNote] = useState(card.note);
  const problem = tooLong(name, NAME_LONGEST) ?? tooLong(note, NOTE_LONGEST);
  return (
    <Dialog title={`Name and note of ${card.name}`} onClose={onClose}>
      <TextBox label="Name" value={name} onChange={setName} problem={tooLong(name, NAME_LONGEST)} />
      <TextBox label="Note" value={note} onChange={setNote} problem={tooLong(note, NOTE_LONGEST)} />
      <div className="logbook-acts">
        <Act kind="calm" onPress={() => onKeep({ name, note })} notNow={problem}>
          Keep
        </Act>
        <Act kind="calm" onPress={onClose}>
          Leave as it was
        </Act>
      </div>
    </Dialog>
  );
}
