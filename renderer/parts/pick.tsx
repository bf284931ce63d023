/** One of many: a list that opens, with its label and what is wrong with what is chosen. */
import { useId } from 'react';
import './pick.css';

interface PickProps {
  readonly label: string;
  /** Whose it is: read out before the label, where a list of many says it to the eye already. */
  readonly of?: string;
  /** Only a screen reader gets the label, where the column's head says it already. */
  readonly labelHidden?: boolean;
  readonly value: string;
  readonly options: readonly { readonly value: string; readonly says: string }[];
  readonly onChange: (value: string) => void;
  readonly problem?: string | undefined;
}

export function Pick({ label, of, labelHidden = false, value, options, onChange, problem }: PickProps) {
  const id = useId();
  return (
    <span className="pick">
      <label className={labelHidden ? 'unseen' : 'field-label'} htmlFor={id}>
        {of === undefined ? null : <span className="unseen">{of} </span>}
        {label}
      </label>
      <select
        id={id}
        className="pick-list"
        value={value}
        aria-invalid={problem !== undefined || undefined}
        aria-describedby={problem === undefined ? undefined : `${id}-problem`}
        onChange={(event) => onChange(event.target.value)}
      >
        {options.map((option) => (
          <option key={option.value} value={option.value}>
            {option.says}
          </option>
        ))}
      </select>
      {problem === undefined ? null : (
        <span id={`${id}-problem`} className="field-problem">
          {problem}
        </span>
      )}
    </span>
  );
}
