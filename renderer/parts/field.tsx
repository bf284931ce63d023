/** What is typed or chosen at leisure: each with its label, a hint, and what is wrong with it beside it. */
import { type ReactNode, useId } from 'react';
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
  /** The field is left. */
  readonly onLeave?: () => void;
  /** For figures and ids, which need little room. */
  readonly short?: boolean;
}

export function TextBox({ value, onChange, onLeave, short, ...around }: TextBoxProps) {
  return (
    <TextField
      className="field"
      value={value}
      onChange={onChange}
      {...(onLeave === undefined ? {} : { onBlur: onLeave })}
      isInvalid={around.problem !== undefined}
    >
      <Around {...around}>
        <Input className={short === true ? 'field-input field-short' : 'field-input'} />
      </Around>
    </TextField>
  );
}

interface PickBoxProps<Value extends string> extends Common {
  readonly value: Value;
  readonly options: readonly { readonly value: Value; readonly says: string }[];
  readonly onChange: (value: Value) => void;
}

/** One of many, in a list that opens: by keyboard its first letters lead there. */
export function PickBox<Value extends string>({
  label,
  hint,
  problem,
  value,
  options,
  onChange,
}: PickBoxProps<Value>) {
  const id = useId();
  const says = problem ?? hint;
  return (
    <div className="field">
      <label className="field-label" htmlFor={id}>
        {label}
      </label>
      <select
        id={id}
        className="field-input field-pick"
        value={value}
        aria-invalid={problem !== undefined}
        aria-describedby={says === undefined ? undefined : `${id}-says`}
        onChange={(event) => {
          const chosen = options.find((option) => option.value === event.target.value);
          if (chosen !== undefined) onChange(chosen.value);
        }}
      >
        {options.map((option) => (
          <option key={option.value} value={option.value}>
            {option.says}
          </option>
        ))}
      </select>
      {says === undefined ? null : (
        <span id={`${id}-says`} className={problem === undefined ? 'field-hint' : 'field-problem'}>
          {says}
        </span>
      )}
    </div>
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
