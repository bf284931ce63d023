/** Fields of a draft. What is typed goes into the draft as soon as it is right; while it is wrong, the draft keeps what it had. */
import { useState } from 'react';
import { type NumberRange, parseNumberText } from '../../shared-model/number-text.ts';
import { useConsole } from '../console/use-console.tsx';
import { TextBox } from '../parts/field.tsx';
import { RUN_UNITS } from '../power-room/run-unit.ts';

type Read<Value> =
  | { readonly ok: true; readonly value: Value }
  | { readonly ok: false; readonly says: string };

interface TypedProps<Value> {
  readonly label: string;
  readonly hint?: string | undefined;
  readonly short?: boolean;
  /** As the draft has it. */
  readonly shown: string;
  readonly read: (text: string) => Read<Value>;
  readonly onChange: (value: Value) => void;
}

function Typed<Value>({ shown, read, onChange, ...around }: TypedProps<Value>) {
  const [typed, setTyped] = useState<string | null>(null);
  const text = typed ?? shown;
  const now = typed === null ? null : read(typed);
  const problem = now === null || now.ok ? undefined : `${now.says.replace(/^e/, 'E')}.`;
  return (
    <TextBox
      {...around}
      value={text}
      problem={problem}
      onChange={(next) => {
        setTyped(next);
        const value = read(next);
        if (value.ok) onChange(value.value);
      }}
      onLeave={() => {
        if (problem === undefined) setTyped(null);
      }}
    />
  );
}

interface DraftTextProps {
  readonly label: string;
  readonly hint?: string | undefined;
  readonly short?: boolean;
  readonly value: string;
  readonly most?: number;
  readonly onChange: (value: string) => void;
}

/** Words that have to be there: a name. */
export function DraftText({ value, most = 120, ...around }: DraftTextProps) {
  return (
    <Typed
      {...around}
      shown={value}
      read={(text) =>
        text.trim() === '' || text.length > most
          ? { ok: false, says: `expected 1 to ${most} characters` }
          : { ok: true, value: text }
      }
    />
  );
}

/** Words that may be left out. */
export function DraftNote({
  value,
  most = 120,
  onChange,
  ...around
}: Omit<DraftTextProps, 'value' | 'onChange'> & {
  readonly value: string | undefined;
  readonly onChange: (value: string | undefined) => void;
}) {
  return (
    <Typed
      {...around}
      shown={value ?? ''}
      read={(text) =>
        text.length > most
          ? { ok: false, says: `expected at most ${most} characters` }
          : { ok: true, value: text === '' ? undefined : text }
      }
      onChange={onChange}
    />
  );
}

interface DraftFigureProps {
  readonly label: string;
  readonly hint?: string | undefined;
  readonly value: number | undefined;
  readonly range: NumberRange;
  /** Whether it may be left out. */
  readonly optional?: boolean;
  readonly onChange: (value: number | undefined) => void;
}

/** A number as it is typed, a comma for the point. */
const asNumber = (text: string, range: NumberRange) => parseNumberText(text.replace(',', '.'), range);

/** A figure within its range; empty where it may be left out. */
export function DraftFigure({ value, range, optional = false, ...around }: DraftFigureProps) {
  return (
    <Typed<number | undefined>
      {...around}
      short
      shown={value === undefined ? '' : String(value)}
      read={(text) =>
        text.trim() === '' && optional ? { ok: true, value: undefined } : asNumber(text, range)
      }
    />
  );
}

interface DraftRunProps {
  readonly label: string;
  readonly mm: number;
  readonly onChange: (mm: number) => void;
}

/** A length of wire, in the unit that the user prefers. */
export function DraftRun({ label, mm, onChange }: DraftRunProps) {
  const unit = RUN_UNITS[useConsole((state) => state.settings.lengths)];
  return (
    <Typed<number>
      label={`${label} (${unit.unit})`}
      short
      shown={String(Number((mm / unit.mm).toFixed(2)))}
      read={(text) => {
        const run = asNumber(text, unit.range);
        // Half a millimetre of wire is nothing; a whole number is what the file shows.
        return run.ok ? { ok: true, value: Math.max(1, Math.round(run.value * unit.mm)) } : run;
      }}
      onChange={onChange}
    />
  );
}
