/** A length of track as the user prefers lengths; also in trains, where the draft has one. It is taken over when it is whole. */
import { useState } from 'react';
import { lengthText, readLength } from '../../shared-model/length-text.ts';
import { useConsole } from '../console/use-console.tsx';
import { TextBox } from '../parts/field.tsx';
import { useDraft } from './use-drawing.tsx';

interface TypedLengthProps {
  readonly label: string;
  readonly mm: number;
  readonly onChange: (mm: number) => void;
}

/** The longest train of the draft, by which lengths may be told; null without any. */
const longestTrain = (trains: readonly { readonly length: number }[]): number | null =>
  trains.length === 0 ? null : Math.max(...trains.map(({ length }) => length));

export function TypedLength({ label, mm, onChange }: TypedLengthProps) {
  const system = useConsole((state) => state.settings.lengths);
  const { trains } = useDraft();
  const [typed, setTyped] = useState<string | null>(null);
  const read = typed === null ? null : readLength(typed, system, longestTrain(trains));
  const takeOver = () => {
    if (read?.ok !== true) return;
    if (read.mm !== mm) onChange(read.mm);
    setTyped(null);
  };
  return (
    <form
      onSubmit={(event) => {
        event.preventDefault();
        takeOver();
      }}
    >
      <TextBox
        label={label}
        value={typed ?? lengthText(mm, system)}
        problem={read?.ok === false ? `${read.says.replace(/^e/, 'E')}.` : undefined}
        onChange={setTyped}
        onLeave={takeOver}
      />
    </form>
  );
}
