/** What is typed or chosen at leisure: each with its label, a hint, and what is wrong with it beside it. */
import type { ReactNode } from 'react';
import {
  FieldError,
  Input,
  Label,
  NumberField,
  Radio,
  RadioGroup,
  Switch,
  Text,
  TextField,
} from 'react-aria-components';
import './field.css';

interface Common {
  readonly label: string;
  readonly hint?: string | undefined;
  /** What is wrong with what is in it now; nothing when it is right. */
  readonly problem?: string | undefined;
}

function Around({ label, hint, problem, children }: Common & { readonly children: ReactNode }) {
  return (
    <>
      <Label className="field-label">{label}</Label>
      {children}
      {hint === undefined ? null : (
        <Text slot="description" className="field-hint">
          {hint}
        </Text>
      )}
      <FieldError className="field-problem">{problem}</FieldError>
    </>
  );
}

interface TextBoxProps extends Common {
  readonly value: string;
  readonly onChange: (value: string) => void;
}

export function TextBox({ value, onChange, ...around }: TextBoxProps) {
  return (
    <TextField className="field" value={value} onChange={onChange} isInvalid={around.problem !== undefined}>
      <Around {...around}>
        <Input className="field-input" />
      </Around>
    </TextField>
  );
}

interface NumberBoxProps extends Common {
  readonly value: number;
  readonly onChange: (value: number) => void;
  readonly least?: number;
  readonly most?: number;
  readonly step?: number;
  /** Written after the number: "mm", "V". */
  readonly unit?: string;
}

/** A number is taken over when the field is left or Enter is pressed; one outside the bounds becomes the nearest bound. */
export function NumberBox({ value, onChange, least, most, step, unit, ...around }: NumberBoxProps) {
  const bounds = {
    ...(least === undefined ? {} : { minValue: least }),
    ...(most === undefined ? {} : { maxValue: most }),
    ...(step === undefined ? {} : { step }),
  };
  return (
    <NumberField
      className="field"
      value={value}
      onChange={(next) => {
        if (!Number.isNaN(next)) onChange(next);
      }}
      isWheelDisabled
      isInvalid={around.problem !== undefined}
      {...bounds}
    >
      <Around {...around}>
        <span className="field-row">
          <Input className="field-input field-number" />
          {unit === undefined ? null : <span className="quiet">{unit}</span>}
        </span>
      </Around>
    </NumberField>
  );
}

interface ChoiceProps<Value extends string> extends Common {
  readonly value: Value;
  readonly options: readonly { readonly value: Value; readonly says: string }[];
  readonly onChange: (value: Value) => void;
}

/** One of a few, all of them in sight. */
export function Choice<Value extends string>({ value, options, onChange, ...around }: ChoiceProps<Value>) {
  return (
    <RadioGroup
      className="field"
      value={value}
      onChange={(next) => {
        const chosen = options.find((option) => option.value === next);
        if (chosen !== undefined) onChange(chosen.value);
      }}
      orientation="horizontal"
    >
      <Around {...around}>
        <span className="field-row">
          {options.map((option) => (
            <Radio key={option.value} value={option.value} className="field-option">
              {option.says}
            </Radio>
          ))}
        </span>
      </Around>
    </RadioGroup>
  );
}

interface OnOffProps {
  readonly label: string;
  readonly hint?: string;
  readonly on: boolean;
  readonly onChange: (on: boolean) => void;
}

/** The word says whether it is on; the box shows it again. */
export function OnOff({ label, hint, on, onChange }: OnOffProps) {
  return (
    <div className="field">
      <Switch className="field-switch" isSelected={on} onChange={onChange}>
        <span className="field-box" aria-hidden="true" />
        <span>{label}</span>
        <span className="quiet">{on ? 'on' : 'off'}</span>
      </Switch>
      {hint === undefined ? null : <span className="field-hint">{hint}</span>}
    </div>
  );
}
